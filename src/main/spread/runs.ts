import type { SpreadAsk } from '../../core/deciding/spread-samples.ts'
import type { Plan } from '../../core/plan/schema.ts'

/** What a worker is started with. */
export interface WorkerStart {
  readonly plan: Plan
  readonly ask: SpreadAsk
}

/** Runs that a worker is asked for: from `from` up to, without, `to`. */
export interface RunsAsked {
  readonly from: number
  readonly to: number
}

/** What a worker answers: the rows, or why there are none. */
export type RunsDone =
  | { readonly kind: 'rows'; readonly from: number; readonly rows: Float64Array }
  | { readonly kind: 'failed'; readonly stage: string; readonly at_h: number; readonly reason: string }
