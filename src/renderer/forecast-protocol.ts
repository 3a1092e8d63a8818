import type { Fault } from '../core/errors.ts'
import type { Forecast } from '../core/forecast-types.ts'
import type { Plan } from '../core/plan/schema.ts'

export type Fidelity = Forecast['model']['fidelity']

/** What the page asks of the worker. */
export interface ForecastAsk {
  readonly id: number
  readonly plan: Plan
  readonly fidelity: Fidelity
  /** Whether the bands of the last forecast will do: its plan was this one before a change, and better follows at once. */
  readonly carries: boolean
  /** Holds the id of the run that is still wanted, where memory can be shared; null elsewhere. */
  readonly wanted: SharedArrayBuffer | null
}

/** A computation that could not be finished. `stage` is empty where no stage had begun. */
export interface Failure {
  readonly reason: string
  readonly stage: string
  readonly at_h: number
}

/** What the worker answers; mistakes come as data, never as exceptions. */
export type ForecastReply =
  | { readonly kind: 'progress'; readonly id: number; readonly share: number; readonly doing: string }
  | { readonly kind: 'done'; readonly id: number; readonly forecast: Forecast }
  | { readonly kind: 'faults'; readonly id: number; readonly faults: readonly Fault[] }
  | { readonly kind: 'failed'; readonly id: number; readonly failure: Failure }
  | { readonly kind: 'stopped'; readonly id: number }
