import type { Answer, Forecast } from '../forecast-types.ts'
import { endBand } from '../stage-times.ts'
import type { TimeBand } from '../words/banded.ts'

/** A moment at which someone should put a probe in, with what is expected then. Hours since the start, °C. */
export interface Check extends TimeBand {
  readonly at_h: number
  /** Index of the stage in which it falls. */
  readonly stage: number
  readonly reason: CheckReason
  readonly core: Expected
  readonly surface: Expected
}

export type CheckReason =
  | { readonly kind: 'stage-end' }
  | { readonly kind: 'halfway' }
  /** A target's asked or likely moment; `index` among the plan's targets. */
  | { readonly kind: 'asked' | 'likely'; readonly target: string; readonly index: number }

/** What a probe should show. */
export interface Expected {
  readonly likely_C: number
  readonly low_C: number
  readonly high_C: number
}

/** A stage longer than this is looked at halfway too, h. */
const LONG_H = 6
/** Checks closer than this are one, h. */
const APART_H = 0.25

/** Value of a curve at a moment, straight between its points; undefined where it isn't there yet. */
export function curveAt(
  times_h: readonly number[],
  curve: readonly (number | null)[],
  at_h: number,
): number | undefined {
  if (times_h.length === 0 || at_h < times_h[0]! || at_h > times_h[times_h.length - 1]!) return undefined
  // Of a moment that appears twice the first: what was measured before something was done.
  const after = times_h.findIndex((time) => time >= at_h)
  const high = curve[after]
  if (high === null || high === undefined) return undefined
  if (times_h[after] === at_h || after === 0) return high
  const low = curve[after - 1]
  if (low === null || low === undefined) return undefined
  const share = (at_h - times_h[after - 1]!) / (times_h[after]! - times_h[after - 1]!)
  return low + share * (high - low)
}

function expectedOf({ times_h, curves, bands }: Forecast, name: string, at_h: number): Expected | undefined {
  const read = (curve: readonly (number | null)[] | undefined): number | undefined =>
    curve === undefined ? undefined : curveAt(times_h, curve, at_h)
  const likely_C = read(curves[name])
  if (likely_C === undefined) return undefined
  return { likely_C, low_C: read(bands[name]?.low) ?? likely_C, high_C: read(bands[name]?.high) ?? likely_C }
}

interface Moment extends TimeBand {
  readonly at_h: number
  readonly reason: CheckReason
}

function momentsOf(answer: Answer): readonly Moment[] {
  const { target, index, at_h, by_h, early_h, late_h } = answer
  const band: TimeBand = { ...(early_h === undefined ? {} : { early_h }), ...(late_h === undefined ? {} : { late_h }) }
  return [
    ...(at_h === undefined ? [] : [{ at_h, ...band, reason: { kind: 'likely', target, index } as const }]),
    ...(by_h === undefined ? [] : [{ at_h: by_h, reason: { kind: 'asked', target, index } as const }]),
  ]
}

/**
 * When to measure: at the end of every stage, at what was asked and what is likely, halfway through long stages; in
 * order, moments close together once, the first named of them for its reason.
 */
export function checksOf(forecast: Forecast): Check[] {
  const { stages, answers } = forecast
  const wanted: Moment[] = [
    ...answers.flatMap(momentsOf),
    ...stages.map((stage) => ({ at_h: stage.to_h, ...endBand(stage), reason: { kind: 'stage-end' } as const })),
    ...stages
      .filter(({ from_h, to_h }) => to_h - from_h > LONG_H)
      .map(({ from_h, to_h }) => ({ at_h: (from_h + to_h) / 2, reason: { kind: 'halfway' } as const })),
  ]
  const kept: Check[] = []
  for (const moment of wanted) {
    const { at_h } = moment
    if (at_h <= 0 || kept.some((check) => Math.abs(check.at_h - at_h) < APART_H)) continue
    const core = expectedOf(forecast, 'core', at_h)
    const surface = expectedOf(forecast, 'surface', at_h)
    if (core === undefined || surface === undefined) continue
    const stage = stages.findIndex(({ to_h }) => at_h <= to_h)
    kept.push({ ...moment, stage: stage < 0 ? stages.length - 1 : stage, core, surface })
  }
  return kept.sort((one, other) => one.at_h - other.at_h)
}
