import { type ReactNode, useMemo } from 'react'

import { clockMoves } from '../../core/plan/clock.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { writeAt } from '../edits/path.ts'
import { useForecast } from '../forecast-client.ts'
import { dateAndClock, durationWords } from '../format-time.ts'
import { Choice } from '../parts/Choice.tsx'
import { clockChangesOf } from '../plan-clock.ts'
import { useOpenPlan, usePlan } from '../plan-store.ts'

const NONE = 'none'
const zones = Intl.supportedValuesOf('timeZone').map((id) => ({ id, title: id.replaceAll('_', ' ') }))
const groups = [
  { title: null, options: [{ id: NONE, title: 'None: it is never moved' }] },
  { title: 'Zones', options: zones },
]

/** By which clock the plan is told, and whether that is moved meanwhile. */
export function PlanClock(): ReactNode {
  const plan = useOpenPlan()
  const edit = usePlan((state) => state.edit)
  return (
    <section className="plan-clock" aria-label="Clock of the workshop">
      {plan.clock_changes === undefined ? (
        <Choice
          label="Time zone of the workshop"
          value={plan.zone ?? NONE}
          groups={groups}
          onChoose={(id) => edit('time zone', (was) => writeAt(was, 'zone', id === NONE ? undefined : id))}
        />
      ) : null}
      <ClockWords plan={plan} />
    </section>
  )
}

function ClockWords({ plan }: { readonly plan: Plan }): ReactNode {
  const end_h = useForecast(({ forecast }) => forecast?.times_h.at(-1) ?? 0)
  const moves = useMemo(() => clockMoves(plan.startsAt, clockChangesOf(plan)), [plan])
  if (plan.zone === undefined && plan.clock_changes === undefined) return null
  const met = moves.filter(({ at }) => at / 3600 < end_h)
  if (met.length === 0) return <p className="second">The clock is not moved during this plan.</p>
  return met.map(({ at, by_min }) => (
    <p key={at} className="second">
      The clock goes {by_min > 0 ? 'forward' : 'back'} by {durationWords(by_min / 60)}: it then shows{' '}
      {dateAndClock(plan.startsAt, at / 3600)}. Hours are counted as they pass.
    </p>
  ))
}
