import type { FitWork } from '../../core/pooled/fit-work.ts'
import type { LooksWork } from '../../core/pooled/looks-work.ts'
import type { SpreadWork } from '../../core/pooled/spread-work.ts'
import type { ForecastsWork } from '../cli/forecasts-work.ts'

/** All kinds of work by name; how each is done is in `works.ts`. */
export interface Works {
  readonly fit: FitWork
  readonly forecasts: ForecastsWork
  readonly looks: LooksWork
  readonly spread: SpreadWork
}

export type WorkName = keyof Works

/** What a worker is started with. */
export interface WorkerStart {
  readonly name: WorkName
  readonly start: unknown
}
