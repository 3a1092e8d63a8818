import type { Plan } from '../core/plan/schema/plan.ts'
import type { ForecastState } from './forecast-client.ts'
import { durationWords } from './format-time.ts'
import { undoName } from './history.ts'
import type { PlanState } from './plan-store.ts'

/** What the header says about the forecast. */
export interface ForecastWord {
  readonly state: 'none' | 'fresh' | 'computing' | 'stale' | 'failed'
  readonly word: string
  /** More, for a tooltip and for those who listen. */
  readonly more: string
}

/**
 * The one line about where the forecast stands.
 * @param faults  how many faults keep the plan from being computed
 * @param long  whether a run has gone on for a second
 */
export function forecastWord(forecast: ForecastState, plan: PlanState, faults: number, long: boolean): ForecastWord {
  const present = plan.history?.present
  const { running, made, failure, cancelled } = forecast
  if (running !== null && long) return { state: 'computing', word: 'Computing', more: running.doing }
  if (failure !== null) {
    const word = failure.stage === '' ? 'Stopped' : `Stopped in ${failure.stage} at ${durationWords(failure.at_h)}`
    return { state: 'failed', word, more: failure.reason }
  }
  const wrong = plan.refused.size + faults
  if (made === null) {
    const more = wrong > 0 ? mend(wrong) : cancelled ? 'Stopped by you' : ''
    return { state: 'none', word: wrong > 0 || cancelled ? 'None yet' : 'Computing', more }
  }
  if (wrong > 0) return { state: 'stale', word: 'From before your last change', more: mend(wrong) }
  if (made !== present && (running === null || long)) {
    return { state: 'stale', word: 'From before your last change', more: cancelled ? 'Stopped by you' : '' }
  }
  return { state: 'fresh', word: 'Up to date', more: '' }
}

const mend = (wrong: number): string =>
  wrong === 1 ? 'One field needs mending first; it is marked' : `${wrong} fields need mending first; they are marked`

/** Name of the change since which the forecast is out of date; null while it is fresh. */
export function staleSince(forecast: ForecastState, plan: PlanState): string | null {
  const present: Plan | undefined = plan.history?.present
  if (forecast.made === null || plan.history === null) return null
  if (forecast.made === present && plan.refused.size === 0) return null
  return forecast.made === present ? 'a field that needs mending' : (undoName(plan.history) ?? 'your last change')
}
