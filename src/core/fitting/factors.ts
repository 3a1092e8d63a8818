import { type Input, inputsOf } from '../deciding/inputs.ts'
import type { ResolvedPlan } from '../plan/resolve.ts'
import type { Plan } from '../plan/schema/plan.ts'

/** What of measuring itself may be wrong. */
export type MeasuringKind = 'probe depth' | 'probe reading' | 'clock' | 'clock rate'

/** Something that readings may correct: an uncertain input of the plan, or how it was measured. */
export interface FitFactor {
  readonly kind: Input['kind'] | MeasuringKind
  /** Material, layer, faces, surroundings or probe that it acts on; empty where there is but one. */
  readonly of: string
  readonly title: string
  /** One standard deviation before any reading: of the logarithm for factors, else in its unit. */
  readonly sigma: number
  readonly unit: 'factor' | 'K' | 'mm' | 'min' | 'min a day'
  readonly source: string
}

/** A probe pushed in by hand lies within ±8 mm of where it is said to be (5 to 95 %): estimate. */
const DEPTH_MM = 5
/** A kitchen thermometer reads within ±0.5 K of the truth throughout (5 to 95 %): estimate. */
const READING_K = 0.3
/** A logger's clock is set within ±5 min of the workshop's, and drifts by no more than ±2 min a day: estimates. */
const CLOCK_MIN = 3
const RATE_MIN = 1.2

const estimate = (
  kind: MeasuringKind,
  of: string,
  title: string,
  sigma: number,
  unit: FitFactor['unit'],
): FitFactor => ({ kind, of, title, sigma, unit, source: 'estimate' })

/** The inputs that temperatures can tell of: all but the laws of setting. */
export function fittedInputs(plan: Plan, resolved: ResolvedPlan): (Input & { readonly unit: 'factor' | 'K' })[] {
  return inputsOf(plan, resolved).filter(
    (input): input is Input & { readonly unit: 'factor' | 'K' } => input.unit === 'factor' || input.unit === 'K',
  )
}

/**
 * What may be wrong about the measuring of some probes.
 * @param placed  those of the probes that have a place of their own
 */
export function measuringFactors(probes: readonly string[], placed: readonly string[], logged: boolean): FitFactor[] {
  return [
    ...probes
      .filter((probe) => placed.includes(probe))
      .map((probe) => estimate('probe depth', probe, `height at which "${probe}" sits`, DEPTH_MM, 'mm')),
    ...probes.map((probe) => estimate('probe reading', probe, `what "${probe}" reads`, READING_K, 'K')),
    ...(logged
      ? [
          estimate('clock', '', "the logger's clock", CLOCK_MIN, 'min'),
          estimate('clock rate', '', "how fast the logger's clock goes", RATE_MIN, 'min a day'),
        ]
      : []),
  ]
}
