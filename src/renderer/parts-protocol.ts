import type { FitWork } from '../core/pooled/fit-work.ts'
import type { LooksWork } from '../core/pooled/looks-work.ts'
import type { SpreadWork } from '../core/pooled/spread-work.ts'

/** Kinds of work whose parts are done side by side, by name. */
export interface PartsWorks {
  readonly fit: FitWork
  readonly looks: LooksWork
  readonly spread: SpreadWork
}

export type PartsName = keyof PartsWorks

/** What is first said to a worker that does parts: its kind of work, and what to get ready with. Then come the parts. */
export interface PartsStart {
  readonly name: PartsName
  readonly start: unknown
}
