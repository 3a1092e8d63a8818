import type { Message } from '../messages.ts'
import type { FitFactor } from './factors.ts'
import type { Reading } from './readings.ts'

/** How well readings tell a factor: by the share of its doubt that they leave. */
export type Determined = 'well' | 'partly' | 'not'

/** What a fit says of one number: a factor (1: as the plan has it), or a shift in its unit (0). */
export interface Estimate {
  readonly title: string
  readonly unit: FitFactor['unit']
  readonly determined: Determined
  /** Likely value with its 5 to 95 % span; absent where the readings don't determine it. */
  readonly value?: number
  readonly low?: number
  readonly high?: number
  /** Half-width of that span over what it was before the readings, 0 to 1. */
  readonly left: number
}

export interface FittedFactor extends Estimate, Pick<FitFactor, 'kind' | 'of' | 'source'> {
  /** At the end of what is plausible. */
  readonly atBound: boolean
}

/** What several factors come to: heat passed on a face, the diffusivity of a material. */
export interface DerivedFactor extends Estimate {
  readonly kind: 'film of a face' | 'diffusivity'
  readonly of: string
  /** Faces that it holds for. */
  readonly faces?: string
}

/** One reading beside what the fitted plan expects there. */
export interface FittedReading extends Reading {
  /** Readings that it stands for: a long log is taken in short stretches. */
  readonly count: number
  /** Expected before and after the fit, °C. */
  readonly before_C: number
  readonly expected_C: number
  /** Measured less expected, K, and over what is usual. */
  readonly residual_K: number
  readonly usual: number
  /** How much it counted, 0 to 1. */
  readonly weight: number
  readonly outlier: boolean
}

/** What readings say about a plan. */
export interface Fit {
  readonly factors: readonly FittedFactor[]
  readonly derived: readonly DerivedFactor[]
  /** Of the factors after the readings. Shape: factors × factors */
  readonly correlation: readonly (readonly number[])[]
  readonly readings: readonly FittedReading[]
  /** Root mean square of the residuals before and after, K. */
  readonly before_K: number
  readonly after_K: number
  /** False: no plausible piece gives such readings, and nothing should be taken from the fit. */
  readonly explained: boolean
  /** Warnings, the gravest first. */
  readonly notes: readonly Message[]
}

export interface FitAsk {
  /** Kinds of factors that may move; all that matter if left out. The others keep their doubt. */
  readonly factors?: readonly FitFactor['kind'][]
  /** Standard deviation of one reading, K; 0.5 if left out. */
  readonly noise_K?: number
  /** The readings are a logger's: its clock may be wrong. */
  readonly logged?: boolean
}
