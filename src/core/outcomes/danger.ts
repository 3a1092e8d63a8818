import type { Forecast } from '../forecast-types.ts'
import type { Place } from '../geometry/body.ts'
import type { Course } from '../journey/course.ts'
import { toHours } from '../units.ts'
import { fineFollow, finePlaces } from './fine-history.ts'

/**
 * The zone in which what spoils food grows, °C: the widest of the common limits. Source: `fsanz-2h4h` (5 to 60 °C),
 * foodstandards.gov.au, rule of 2 and 4 hours.
 */
export const DANGER_C = { low: 5, high: 60 } as const

/** Time of one straight piece that is spent strictly between two temperatures. Unit: as that of `span` */
export function timeInside(span: number, from: number, to: number, low_C: number, high_C: number): number {
  if (from === to) return from > low_C && from < high_C ? span : 0
  const inside = Math.min(Math.max(from, to), high_C) - Math.max(Math.min(from, to), low_C)
  return inside > 0 ? (span * inside) / Math.abs(to - from) : 0
}

/**
 * Time that a curve spends strictly between two temperatures, in the unit of `t`; straight lines between samples,
 * stretches without a temperature (NaN) left out. Shape of both: samples
 */
export function timeBetween(t: ArrayLike<number>, T_C: ArrayLike<number>, low_C: number, high_C: number): number {
  let sum = 0
  for (let i = 1; i < t.length; i++) sum += timeInside(t[i]! - t[i - 1]!, T_C[i - 1]!, T_C[i]!, low_C, high_C)
  return sum
}

/** Hours that one place of a course spends in the danger zone. */
export function dangerAt(course: Course, place: Place): number {
  const { t, T_C } = fineFollow(course, place)
  return toHours(timeBetween(t, T_C, DANGER_C.low, DANGER_C.high))
}

/** Hours in the danger zone: the place that stays longest, and the core. */
export function judgeDanger(course: Course, core: Place): Forecast['danger'] {
  const { low, high } = DANGER_C
  let longest = { time: -1, where: core, layer: course.describe(core).layer }
  const histories = finePlaces(course)
  for (const [index, { where, layer }] of course.places().entries()) {
    const { t, T_C } = histories[index]!
    const time = timeBetween(t, T_C, low, high)
    if (time > longest.time) longest = { time, where, layer }
  }
  return {
    low_C: low,
    high_C: high,
    longest_h: toHours(Math.max(0, longest.time)),
    where: longest.where,
    layer: longest.layer,
    core_h: toHours(timeBetween(course.t, course.follow(core), low, high)),
  }
}
