import type { ReactNode } from 'react'

import { keptOf } from '../../core/fitting/kept.ts'
import { surroundingsOf } from '../../core/plan/exchange.ts'
import type { PlanStage } from '../../core/plan/schema.ts'
import { withMeasuredAir, withoutMeasuredAir } from '../edits/measured.ts'
import { showIn } from '../format.ts'
import { useOpenPlan, usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
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
      <p className="second">
        As measured{measuredOn(given.measured)}: {surroundingsMeasured(given.measured, show)}.{' '}
        <button
          type="button"
          className="link"
          onClick={() => edit('measured figures left out', (plan) => withoutMeasuredAir(plan, index))}
        >
          Leave what was measured out
        </button>
      </p>
    )
  if (found?.in.measured === undefined) return null
  return (
    <p className="second">
      Measured before as “{found.name}”: {surroundingsMeasured(found.in.measured, show)}.{' '}
      <button
        type="button"
        className="link"
        onClick={() => edit('measured surroundings', (plan) => withMeasuredAir(plan, index, found))}
      >
        Take over what was measured
      </button>
    </p>
  )
}
