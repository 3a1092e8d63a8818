import type { ReactNode } from 'react'

import { keptOf } from '../../core/fitting/kept.ts'
import { surroundingsOf } from '../../core/plan/exchange.ts'
import type { PlanStage } from '../../core/plan/schema/plan.ts'
import { withMeasuredAir, withoutMeasuredAir } from '../edits/measured.ts'
import { showIn } from '../format.ts'
import { useOpenPlan, usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import { LEAVE_OUT, MeasuredLine, TAKE_OVER } from './MeasuredLine.tsx'
import { useMeasured } from './measured-store.ts'
import { measuredOn, surroundingsMeasured } from './measured-words.ts'

/** What was measured of a stage's surroundings: taken over, or to be taken over. */
export function MeasuredAir({ stage, index }: { readonly stage: PlanStage; readonly index: number }): ReactNode {
  const edit = usePlan((state) => state.edit)
  const { startsAt } = useOpenPlan()
  const units = useSettings(({ settings }) => settings)
  const kept = useMeasured((state) => state.kept)
  const given = surroundingsOf(stage)
  const found = keptOf(kept, given)
  const show = showIn(units, startsAt)
  if (given.measured !== undefined)
    return (
      <MeasuredLine
        className="second"
        said={`As measured${measuredOn(given.measured)}: ${surroundingsMeasured(given.measured, show)}.`}
        offer={LEAVE_OUT}
        onTake={() => edit('measured figures left out', (plan) => withoutMeasuredAir(plan, index))}
      />
    )
  if (found?.in.measured === undefined) return null
  return (
    <MeasuredLine
      className="second"
      said={`Measured before as “${found.name}”: ${surroundingsMeasured(found.in.measured, show)}.`}
      offer={TAKE_OVER}
      onTake={() => edit('measured surroundings', (plan) => withMeasuredAir(plan, index, found))}
    />
  )
}
