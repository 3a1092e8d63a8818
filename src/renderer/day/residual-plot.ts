import type { FittedReading } from '../../core/fitting/fit-types.ts'
import type { Show } from '../../core/words/show.ts'
import type { ProbeMarker } from '../course/curve-style.ts'
import { temperatureNumber } from '../format.ts'
import { dayAndClock } from '../format-time.ts'
import type { Units } from '../units.ts'

/** How far apart measured and computed are, for a plot of it over time. Kelvin as stored. */
export interface ResidualScale {
  /** The plot reaches from −reach_K to +reach_K. */
  readonly reach_K: number
  readonly ticks_K: readonly number[]
  /** Readings scatter so much as a rule, either way. */
  readonly usual_K: number
}

const steps = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50]
/** Steps on either side of zero, at most. */
const MOST_STEPS = 3
/** Standard deviations within which readings lie as a rule. */
const AS_A_RULE = 2

/** A scale even on both sides, in round steps of the reader's degrees. */
export function residualScale(readings: readonly FittedReading[], units: Units): ResidualScale {
  const degree_K = units.temperature === 'F' ? 5 / 9 : 1
  const sigmas = readings
    .flatMap(({ residual_K, usual }) => (usual === 0 ? [] : [Math.abs(residual_K / usual)]))
    .toSorted((a, b) => a - b)
  const usual_K = AS_A_RULE * (sigmas[Math.floor(sigmas.length / 2)] ?? 0)
  const furthest = Math.max(usual_K, ...readings.map(({ residual_K }) => Math.abs(residual_K))) / degree_K
  const step = steps.find((one) => one * MOST_STEPS >= furthest) ?? furthest / MOST_STEPS
  const count = Math.max(1, Math.ceil(furthest / step - 1e-9))
  const ticks_K = Array.from({ length: 2 * count + 1 }, (_, index) => (index - count) * step * degree_K)
  return { reach_K: 1.12 * count * step * degree_K, ticks_K, usual_K }
}

const markers: readonly ProbeMarker[] = ['ring', 'square', 'triangle', 'lozenge']

/** A marker a probe, in the order in which they were read first. */
export function probeMarkers(readings: readonly FittedReading[]): ReadonlyMap<string, ProbeMarker> {
  const probes = [...new Set(readings.map(({ probe }) => probe))]
  return new Map(probes.map((probe, index) => [probe, markers[index % markers.length] ?? 'ring']))
}

/** "+0.4", in the reader's degrees. */
export function signedDifference(dT_K: number, units: Units): string {
  const shown = dT_K / (units.temperature === 'F' ? 5 / 9 : 1)
  const size = Math.abs(shown).toFixed(1)
  return Number(size) === 0 ? '0.0' : `${shown < 0 ? '−' : '+'}${size}`
}

/** What the plot shows, in a sentence or two. */
export function residualSentence(
  readings: readonly FittedReading[],
  { usual_K }: ResidualScale,
  startsAt: string,
  show: Show,
): string {
  const strays = readings.filter(({ outlier }) => outlier)
  const within = readings.filter(({ residual_K }) => Math.abs(residual_K) <= usual_K).length
  const count = readings.length === 1 ? '1 reading' : `${readings.length} readings`
  const most = `Measured less computed: ${within} of ${count} within ${show.difference(usual_K)}, as readings scatter.`
  const one = strays[0]
  if (one === undefined) return most
  const first = `by ${show.difference(Math.abs(one.residual_K))} at ${dayAndClock(startsAt, one.at_h)}`
  return `${most} ${strays.length === 1 ? '1 strays' : `${strays.length} stray, the first`} ${first}.`
}

export interface ResidualRow {
  readonly key: string
  readonly when: string
  readonly probe: string
  readonly read: string
  readonly expected: string
  readonly off: string
  readonly remark: string
}

/** The same numbers as rows. */
export const residualRows = (readings: readonly FittedReading[], startsAt: string, units: Units): ResidualRow[] =>
  readings.map(({ probe, at_h, C, expected_C, residual_K, outlier, weight, count }) => ({
    key: `${probe} ${at_h}`,
    when: dayAndClock(startsAt, at_h),
    probe,
    read: temperatureNumber(C, units),
    expected: temperatureNumber(expected_C, units),
    off: signedDifference(residual_K, units),
    remark: [outlier ? 'strays' : '', weight === 0 ? 'left out' : '', count > 1 ? `of ${count}` : '']
      .filter((part) => part !== '')
      .join(', '),
  }))
