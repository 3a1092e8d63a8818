import type { ReactNode } from 'react'

import { keptMaterialOf } from '../../core/fitting/kept.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import type { Show } from '../../core/words/show.ts'
import { withMeasuredMaterial, withoutMeasuredMaterial } from '../edits/measured.ts'
import { ownMaterial } from '../edits/recipes.ts'
import { usePlan } from '../plan-store.ts'
import { LEAVE_OUT, MeasuredLine, TAKE_OVER } from './MeasuredLine.tsx'
import { useMeasured } from './measured-store.ts'
import { materialMeasured, measuredOn } from './measured-words.ts'

interface MeasuredMaterialProps {
  readonly plan: Plan
  readonly id: string
  readonly show: Show
}

/** What was measured of a material: taken over, or to be taken over. */
export function MeasuredMaterial({ plan, id, show }: MeasuredMaterialProps): ReactNode {
  const edit = usePlan((state) => state.edit)
  const kept = useMeasured((state) => state.kept)
  const own = ownMaterial(plan, id)?.measured
  const found = keptMaterialOf(kept, plan, id)?.material.measured
  if (own !== undefined)
    return (
      <MeasuredLine
        className="measured-material"
        said={`As measured${measuredOn(own)}: ${materialMeasured(own, show)}.`}
        offer={LEAVE_OUT}
        onTake={() => edit('measured figures left out', (was) => withoutMeasuredMaterial(was, id))}
      />
    )
  if (found === undefined) return null
  return (
    <MeasuredLine
      className="measured-material"
      said={`Measured before${measuredOn(found)}: ${materialMeasured(found, show)}.`}
      offer={TAKE_OVER}
      onTake={() => edit('measured material', (was) => withMeasuredMaterial(was, kept, id))}
    />
  )
}
