import { type FitStart, fitReader } from '../fitting/fit.ts'
import type { Begin } from './work.ts'

/** What the probes of a plan would read while its factors move. */
export interface FitWork {
  readonly start: FitStart
  /** In standard deviations of their priors. Shape: factors */
  readonly part: readonly number[]
  /** °C. Shape: readings taken */
  readonly reply: Float64Array
}

export const beginFit: Begin<FitWork> = fitReader
