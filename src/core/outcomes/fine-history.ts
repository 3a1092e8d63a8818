import type { Place } from '../geometry/body.ts'
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

/** Where straight lines are laid, reused from call to call; grows as needed. */
const buffer = {
  t: new Float64Array(1024) as Float64Array,
  T_C: new Float64Array(1024) as Float64Array,
  slope: new Float64Array(1024) as Float64Array,
  length: 0,
}

function grown(old: Float64Array): Float64Array {
  const made = new Float64Array(2 * old.length)
  made.set(old)
  return made
}

function keep(t: number, T_C: number): void {
  if (buffer.length === buffer.t.length) {
    buffer.t = grown(buffer.t)
    buffer.T_C = grown(buffer.T_C)
  }
  buffer.t[buffer.length] = t
  buffer.T_C[buffer.length] = T_C
  buffer.length++
}

/** Slopes of the cubic at the samples of a run, held to three times the smaller neighbouring secant so that it can't swing out. */
function fillSlopes({ t, T_C }: History, clock: Clock, first: number, last: number): void {
  if (buffer.slope.length < t.length) buffer.slope = new Float64Array(2 * t.length)
  const { slope } = buffer
  let before = Math.abs((T_C[first + 1]! - T_C[first]!) / (t[first + 1]! - t[first]!))
  for (let i = first; i <= last; i++) {
    const after = i < last ? Math.abs((T_C[i + 1]! - T_C[i]!) / (t[i + 1]! - t[i]!)) : before
    const from = clock.from[i]!
    const to = Math.min(last, i + REACH)
    let sum = 0
    for (let j = from; j <= to; j++) sum += clock.weights[i * NODES + j - from]! * T_C[j]!
    const limit = 3 * Math.min(before, after)
    slope[i] = Math.min(Math.max(sum, -limit), limit)
    before = after
  }
}

/** Lays straight lines along one run of samples, as few as do. */
function layLines({ t, T_C }: History, first: number, last: number, within: number): void {
  const half = within / 2
  keep(t[first]!, T_C[first]!)
  let [t0, T0, t1, T1] = [t[first]!, T_C[first]!, t[first]!, T_C[first]!]
  let [low, high] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]
  const add = (at: number, T: number): void => {
    if (T - T0 < low * (at - t0) || T - T0 > high * (at - t0)) {
      keep(t1, T1)
      t0 = t1
      T0 = T1
      low = Number.NEGATIVE_INFINITY
      high = Number.POSITIVE_INFINITY
    }
    low = Math.max(low, (T - T0 - half) / (at - t0))
    high = Math.min(high, (T - T0 + half) / (at - t0))
    t1 = at
    T1 = T
  }
  for (let i = first; i < last; i++) {
    const h = t[i + 1]! - t[i]!
    const chord = (T_C[i + 1]! - T_C[i]!) / h
    const left = buffer.slope[i]! - chord
    const right = buffer.slope[i + 1]! - chord
    const bend = 0.25 * h * Math.max(Math.abs(left), Math.abs(right))
    const pieces = bend > half ? Math.ceil(Math.sqrt(bend / half)) : 1
    for (let piece = 1; piece < pieces; piece++) {
      const s = piece / pieces
      const r = 1 - s
      add(t[i]! + s * h, T_C[i]! + s * h * chord + h * s * r * (left * r - right * s))
    }
    add(t[i + 1]!, T_C[i + 1]!)
  }
  if (t1 > t0) keep(t1, T1)
}

/**
 * The history as straight lines within `within` kelvin of the smooth course through its samples. Moments that come
 * twice stay: there something was done.
 */
export function fineHistory(history: History, within = WITHIN_K): History {
  const clock = clockOf(history.t)
  buffer.length = 0
  for (const { first, last } of clock.runs) {
    if (last > first) fillSlopes(history, clock, first, last)
    layLines(history, first, last, within)
  }
  return { t: buffer.t.slice(0, buffer.length), T_C: buffer.T_C.slice(0, buffer.length) }
}

const known = new WeakMap<Course, readonly History[]>()

/** The history of every place of a course as straight lines, made once. Shape: as course.places() */
export function finePlaces(course: Course): readonly History[] {
  const made = known.get(course) ?? course.places().map((place) => fineHistory(place))
  known.set(course, made)
  return made
}

const followed = new WeakMap<Course, Map<string, History>>()

/** The history of any one place as straight lines, made once; begins when its layer is there. */
export function fineFollow(course: Course, place: Place): History {
  const kept = followed.get(course) ?? new Map<string, History>()
  followed.set(course, kept)
  const key = `${place.x} ${place.y} ${place.z}`
  const made = kept.get(key)
  if (made !== undefined) return made
  const T_C = course.follow(place)
  const begins = Math.max(
    0,
    T_C.findIndex((value) => !Number.isNaN(value)),
  )
  const history = fineHistory(
    begins === 0 ? { t: course.t, T_C } : { t: course.t.subarray(begins), T_C: T_C.subarray(begins) },
  )
  kept.set(key, history)
  return history
}
