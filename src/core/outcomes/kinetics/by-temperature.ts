import type { History } from '../cooling-rule.ts'
import { along } from '../crossing.ts'
import type { Span } from './spans.ts'

/*
 * What holds by temperature alone. Such a question changes its answer at a few temperatures only: they are found once,
 * and a history is asked when it passes them, which on straight lines is exact.
 */

/** A question to a temperature: holds where not negative. */
export type TemperatureMargin = (T_C: number) => number

/** Questions with the temperatures at which any of them changes, °C, rising, and what holds between and on them. */
export interface TurningPoints {
  readonly levels_C: Float64Array
  /** Of every question whether it holds: below the first level, on it, above it and below the second, … Shape: questions × (2 levels + 1) */
  readonly holds: readonly (readonly boolean[])[]
}

/** Temperatures between which questions may change, °C, and how finely they are looked for, K. */
const LOOKED_AT_C = [-40, 40] as const
const LOOK_K = 0.2
/** Nearer than this a temperature is on a level, K. */
const ON_K = 1e-9

/** The temperature between two at which a margin passes zero, °C; the side of it that holds is its own. */
function rootOf(margin: TemperatureMargin, from_C: number, to_C: number): number {
  let [low, high] = [from_C, to_C]
  const after = margin(to_C) >= 0
  for (let pass = 0; pass < 60; pass++) {
    const middle = (low + high) / 2
    if (margin(middle) >= 0 === after) high = middle
    else low = middle
  }
  return after ? high : low
}

/** Finds where questions change. */
export function turningPoints(margins: readonly TemperatureMargin[]): TurningPoints {
  const found: number[] = []
  for (const margin of margins)
    for (let T_C = LOOKED_AT_C[0]; T_C < LOOKED_AT_C[1]; T_C += LOOK_K)
      if (margin(T_C) >= 0 !== margin(T_C + LOOK_K) >= 0) found.push(rootOf(margin, T_C, T_C + LOOK_K))
  const levels_C = Float64Array.from(new Set(found)).sort()
  const last = levels_C.length
  const between = (k: number): number => {
    if (k === 0) return (levels_C[0] ?? LOOKED_AT_C[1]) - LOOK_K
    return k === last ? levels_C[last - 1]! + LOOK_K : (levels_C[k - 1]! + levels_C[k]!) / 2
  }
  const asked = Array.from({ length: 2 * last + 1 }, (_, i) => (i % 2 === 0 ? between(i / 2) : levels_C[(i - 1) / 2]!))
  return { levels_C, holds: margins.map((margin) => asked.map((T_C) => margin(T_C) >= 0)) }
}

/** Number of the part in which a temperature lies: even between levels, odd on one. */
function partOf(levels_C: Float64Array, T_C: number): number {
  let k = 0
  while (k < levels_C.length && T_C > levels_C[k]! + ON_K) k++
  return k < levels_C.length && T_C >= levels_C[k]! - ON_K ? 2 * k + 1 : 2 * k
}

/** When each question holds along a history. Shape: questions */
export function spansByTemperature({ levels_C, holds }: TurningPoints, { t, T_C }: History): Span[][] {
  const spans = holds.map((): Span[] => [])
  const since: (number | undefined)[] = holds.map((own) =>
    own[partOf(levels_C, T_C[0]!)] === true ? t[0]! : undefined,
  )
  const enter = (part: number, at: number): void => {
    for (let q = 0; q < holds.length; q++) {
      const from = since[q]
      if (holds[q]![part]! === (from !== undefined)) continue
      if (from === undefined) since[q] = at
      else {
        if (at > from) spans[q]!.push({ from, to: at })
        since[q] = undefined
      }
    }
  }
  let part = partOf(levels_C, T_C[0]!)
  let low = lowOf(levels_C, part)
  let high = highOf(levels_C, part)
  for (let i = 1; i < t.length; i++) {
    const to_C = T_C[i]!
    if (to_C > low && to_C < high) continue
    const next = partOf(levels_C, to_C)
    const step = next > part ? 1 : -1
    while (part !== next) {
      // Leaving a level begins where it was left; reaching one, where it is reached.
      const level = levels_C[part % 2 === 1 ? (part - 1) / 2 : step > 0 ? part / 2 : part / 2 - 1]!
      const at = along(t[i - 1]!, t[i]!, T_C[i - 1]!, to_C, level)
      part += step
      enter(part, Math.min(Math.max(at, t[i - 1]!), t[i]!))
    }
    low = lowOf(levels_C, part)
    high = highOf(levels_C, part)
  }
  for (let q = 0; q < holds.length; q++) {
    const from = since[q]
    if (from !== undefined) spans[q]!.push({ from, to: Number.POSITIVE_INFINITY })
  }
  return spans
}

/** Temperatures between which a part goes on; on a level there is none. */
const lowOf = (levels_C: Float64Array, part: number): number =>
  part % 2 === 1 ? Number.POSITIVE_INFINITY : part === 0 ? Number.NEGATIVE_INFINITY : levels_C[part / 2 - 1]! + ON_K
const highOf = (levels_C: Float64Array, part: number): number =>
  part % 2 === 1 ? Number.NEGATIVE_INFINITY : (levels_C[part / 2] ?? Number.POSITIVE_INFINITY) - ON_K
