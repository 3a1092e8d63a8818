import type { Fault } from '../core/errors.ts'
import type { Forecast, LikelyCourse } from '../core/forecast-types.ts'
import type { Plan } from '../core/plan/schema/plan.ts'

export type Fidelity = Forecast['model']['fidelity']

/** Holds the id of the work that is still wanted, where memory can be shared; null elsewhere. */
type Wanted = SharedArrayBuffer | null

/** A plan to be forecast. */
export interface PlanAsk {
  readonly kind: 'forecast'
  readonly id: number
  readonly plan: Plan
  readonly fidelity: Fidelity
  /** Whether the bands of the last forecast will do: its plan was this one before a change, and better follows at once. */
  readonly carries: boolean
  /** Whether nothing is shown yet, so that the likely course is told before its bands are computed. */
  readonly early: boolean
  readonly wanted: Wanted
}

/** Plans to get ready with: computed one after the other as long as nothing else is wanted, and dropped. */
export interface WarmAsk {
  readonly kind: 'warm'
  readonly id: number
  readonly plans: readonly Plan[]
  readonly wanted: Wanted
}

/** What the page asks of the worker. */
export type ForecastAsk = PlanAsk | WarmAsk

/** A computation that could not be finished. `stage` is empty where no stage had begun. */
export interface Failure {
  readonly reason: string
  readonly stage: string
  readonly at_h: number
}

/** What the worker answers; mistakes come as data, never as exceptions. */
export type ForecastReply =
  | { readonly kind: 'progress'; readonly id: number; readonly share: number; readonly doing: string }
  | { readonly kind: 'likely'; readonly id: number; readonly course: LikelyCourse }
  | { readonly kind: 'done'; readonly id: number; readonly forecast: Forecast }
  | { readonly kind: 'faults'; readonly id: number; readonly faults: readonly Fault[] }
  | { readonly kind: 'failed'; readonly id: number; readonly failure: Failure }
  | { readonly kind: 'stopped'; readonly id: number }
