import type { Control } from '../control.ts'
import type { Fault } from '../errors.ts'

/** One kind of work for a pool: what a worker begins with, what it is handed, and what it gives back. Plain data all. */
export interface Work {
  readonly start: unknown
  readonly part: unknown
  readonly reply: unknown
}

/** Does one part; throws `PlanError`, `ComputeError`. */
export type DoPart<Of extends Work> = (part: Of['part'], control: Control) => Of['reply'] | Promise<Of['reply']>

/** Makes a worker ready for its parts. Throws as `DoPart`. */
export type Begin<Of extends Work> = (start: Of['start']) => DoPart<Of>

/** What a worker says of the part that it has: how far it is, and at last what came of it. */
export type WorkerSays =
  | { readonly kind: 'progress'; readonly share: number }
  | { readonly kind: 'done'; readonly reply: unknown }
  | { readonly kind: 'faults'; readonly faults: readonly Fault[] }
  | { readonly kind: 'failed'; readonly reason: string; readonly stage: string; readonly at_h: number }
