import type { ReactNode } from 'react'

import type { Plan, PlanAction } from '../../core/plan/schema/plan.ts'
import { writeAt } from '../edits/path.ts'
import { type CutWay, cutWays } from '../edits/stages.ts'
import { QuantityField } from '../parts/QuantityField.tsx'
import { countRange, lengthRange } from '../parts/ranges.ts'
import { count, length } from '../units.ts'

interface CutFieldsProps {
  readonly plan: Plan
  readonly path: string
  readonly action: Extract<PlanAction, { do: 'cut' }>
}

const labels: Readonly<Record<CutWay, string>> = {
  across: 'Pieces across',
  along: 'Pieces along',
  wedges: 'Wedges',
  slice_mm: 'or slices of',
}

/** Into how many pieces, each way that the shape can be cut; a way that the plan names is shown too. */
export function CutFields({ plan, path, action }: CutFieldsProps): ReactNode {
  const can = cutWays(plan)
  const ways = (Object.keys(labels) as CutWay[]).filter((way) => can.includes(way) || action[way] !== undefined)
  return (
    <div className="field-row">
      {ways.map((way) => (
        <QuantityField
          key={way}
          path={`${path}.${way}`}
          label={labels[way]}
          quantity={way === 'slice_mm' ? length : count}
          range={way === 'slice_mm' ? lengthRange : countRange}
          change="cut"
          optional
          {...(way === 'slice_mm' ? {} : { write: (now, value) => writeAt(now, `${path}.${way}`, whole(value)) })}
        />
      ))}
    </div>
  )
}

const whole = (value: number | undefined): number | undefined => (value === undefined ? undefined : Math.round(value))
