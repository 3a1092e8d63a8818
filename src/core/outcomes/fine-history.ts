import type { Course } from '../journey/course.ts'
import { runs } from '../journey/series.ts'
import type { History } from './cooling-rule.ts'

/*
 * Histories as straight lines. The steps of a journey are as long as its accuracy allows: between them the temperature
 * bends, by tenths of a kelvin where it falls fast, which rules and rates must see; where it creeps for days they are
 * more than needed. So a cubic is laid through the steps and straight lines along it, as few as do.
 */

/** How far straight lines may lie from the cubic, K; half of it for cutting pieces up, half for leaving samples out. */
const WITHIN_K = 0.02
/** Samples on each side that a slope looks at. */
const REACH = 2
const NODES = 2 * REACH + 1

/** What of the slopes depends on the moments alone. */
interface Clock {
  readonly runs: ReturnType<typeof runs>
  /** First node of each sample's slope, and the weights of its nodes. Shape: samples, samples × NODES */
  readonly from: Int32Array
  readonly weights: Float64Array
}

const clocks = new WeakMap<object, Clock>()

/** Weights of the derivative at node `at` of the polynomial through nodes `from` to `to`. */
function fillWeights(t: ArrayLike<number>, from: number, to: number, at: number, weights: Float64Array): void {
  let own = 0
  for (let j = from; j <= to; j++) {
    if (j === at) continue
    let weight = 1 / (t[j]! - t[at]!)
    for (let m = from; m <= to; m++) if (m !== j && m !== at) weight *= (t[at]! - t[m]!) / (t[j]! - t[m]!)
    weights[at * NODES + j - from] = weight
    own -= weight
  }
  weights[at * NODES + at - from] = own
}

function clockOf(t: ArrayLike<number>): Clock {
  const known = clocks.get(t)
  if (known !== undefined) return known
  const found = runs(t)
  const from = new Int32Array(t.length)
  const weights = new Float64Array(t.length * NODES)
  for (const { first, last } of found)
    for (let i = first; i <= last && last > first; i++) {
      from[i] = Math.max(first, i - REACH)
      fillWeights(t, from[i]!, Math.min(last, i + REACH), i, weights)
    }
  const made = { runs: found, from, weights }
  clocks.set(t, made)
  return made
}

/** Points of straight lines as they come; leaves out what lies on the way. */
function createLines(within: number) {
  const t: number[] = []
  const T_C: number[] = []
  let [t1, T1] = [Number.NaN, Number.NaN]
  let [low, high] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]
  const keep = (at: number, T: number): void => {
    t.push(at)
    T_C.push(T)
    low = Number.NEGATIVE_INFINITY
    high = Number.POSITIVE_INFINITY
  }
  return {
    start(at: number, T: number): void {
      keep(at, T)
      t1 = at
      T1 = T
    },
    /** The next point of a run. */
    add(at: number, T: number): void {
      let span = at - t[t.length - 1]!
      let rise = T - T_C[T_C.length - 1]!
      if (rise / span < low || rise / span > high) {
        keep(t1, T1)
        span = at - t1
        rise = T - T1
      }
      low = Math.max(low, (rise - within) / span)
      high = Math.min(high, (rise + within) / span)
      t1 = at
      T1 = T
    },
    finish(): void {
      if (t1 !== t[t.length - 1]) keep(t1, T1)
    },
    lines: (): History => ({ t: Float64Array.from(t), T_C: Float64Array.from(T_C) }),
  }
}

/**
 * The history as straight lines within `within` kelvin of the smooth course through its samples. Moments that come
 * twice stay: there something was done.
 */
export function fineHistory({ t, T_C }: History, within = WITHIN_K): History {
  const clock = clockOf(t)
  const lines = createLines(within / 2)
  for (const { first, last } of clock.runs) {
    lines.start(t[first]!, T_C[first]!)
    const secant = (i: number): number => (T_C[i + 1]! - T_C[i]!) / (t[i + 1]! - t[i]!)
    // Held to three times the smaller neighbouring secant, which keeps the cubic from swinging out.
    const slope = (i: number): number => {
      const from = clock.from[i]!
      let sum = 0
      for (let j = 0; j < NODES && from + j <= last; j++) sum += clock.weights[i * NODES + j]! * T_C[from + j]!
      const limit = 3 * Math.min(Math.abs(secant(Math.max(first, i - 1))), Math.abs(secant(Math.min(last - 1, i))))
      return Math.min(Math.max(sum, -limit), limit)
    }
    let left = last > first ? slope(first) : 0
    for (let i = first; i < last; i++) {
      const right = slope(i + 1)
      const h = t[i + 1]! - t[i]!
      const chord = secant(i)
      const bend = 0.25 * h * Math.max(Math.abs(left - chord), Math.abs(right - chord))
      const pieces = Math.max(1, Math.ceil(Math.sqrt((2 * bend) / within)))
      for (let piece = 1; piece < pieces; piece++) {
        const s = piece / pieces
        const r = 1 - s
        const off = h * s * r * ((left - chord) * r - (right - chord) * s)
        lines.add(t[i]! + s * h, T_C[i]! + s * h * chord + off)
      }
      lines.add(t[i + 1]!, T_C[i + 1]!)
      left = right
    }
    lines.finish()
  }
  return lines.lines()
}

const known = new WeakMap<Course, readonly History[]>()

/** The history of every place of a course as straight lines, made once. Shape: as course.places() */
export function finePlaces(course: Course): readonly History[] {
  const made = known.get(course) ?? course.places().map((place) => fineHistory(place))
  known.set(course, made)
  return made
}
