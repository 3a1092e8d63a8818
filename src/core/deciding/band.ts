import type { Control } from '../control.ts'
import type { Course } from '../journey/course.ts'
import { runOnGrid } from '../journey/grid-journey.ts'
import type { Job } from '../journey/job.ts'
import type { Resolution } from '../journey/resolution.ts'
import { smooth } from '../journey/series.ts'

/*
 * A first band, without sampling: what is uncertain is moved by one standard deviation on the coarse grid, and the
 * shifts are joined as the root of their squares, for earlier and later separately. Exact for small independent errors;
 * a sampled spread replaces it where time allows.
 */

/** Courses of the job with one input moved each. */
export interface Variants {
  readonly nominal: Course
  readonly moved: readonly (Omit<Moved, 'job'> & { readonly course: Course })[]
}

/** 5 and 95 % of a normal distribution, in standard deviations. */
const SPAN = 1.645

/** A job with one thing moved by one standard deviation. */
export interface Moved {
  /** To a bound in place of a deviation. */
  readonly bound?: true
  /** Moved the other way it shifts by as much the other way. */
  readonly mirrored?: true
  readonly job: Job
}

/** Runs what is moved; `nominal` on the same grid. */
export function runVariants(
  tries: readonly Moved[],
  resolution: Resolution,
  nominal: Course,
  control: Control,
): Variants {
  const moved = tries.map(({ job, ...how }, index) => {
    control.report?.(index / tries.length, 'band')
    const course = runOnGrid(job, resolution, { ...(control.stopped ? { stopped: control.stopped } : {}) })
    return { ...how, course }
  })
  return { nominal, moved }
}

/** Part of a shift that counts as a deviation: a bound lies at the end of the span itself. */
const deviation = (shift: number, bound: boolean | undefined): number => (bound === true ? shift / SPAN : shift)

/** Span of a quantity, 5 to 95 %, around its nominal value. */
export interface Span {
  readonly low: number
  readonly high: number
}

/**
 * Span of one number of the course; `undefined` from `read` means that it has none (never reached).
 * @returns nothing on a side where the number isn't there in a variant of that side
 */
export function spanOf(
  variants: Variants,
  read: (course: Course) => number | undefined,
): { readonly below: number; readonly above: number; readonly missing: boolean } | undefined {
  const nominal = read(variants.nominal)
  if (nominal === undefined) return undefined
  let below = 0
  let above = 0
  let missing = false
  for (const { course, bound, mirrored } of variants.moved) {
    const value = read(course)
    if (value === undefined) {
      missing = true
      continue
    }
    const square = deviation(value - nominal, bound) ** 2
    if (value < nominal || mirrored === true) below += square
    if (value > nominal || mirrored === true) above += square
  }
  return { below: SPAN * Math.sqrt(below), above: SPAN * Math.sqrt(above), missing }
}

/** Moments closer than this are one, s. */
const SAME_S = 1e-3

const isIn = ({ stages }: Course, stage: number, at: number): boolean => {
  const span = stages[stage]
  return span !== undefined && at >= span.from - SAME_S && at <= span.to + SAME_S
}

/** Reads a column of a course at any moment; at a doubled one, and just there, what belongs to the asked stage. */
export function clockReader(course: Course, values: Float64Array): (at: number, stage: number) => number {
  const { stages, t } = course
  const curves = stages.map(({ first, last }) => {
    let curve: ((at: number) => number) | undefined
    return (at: number): number => {
      curve ??= smooth(t, values, first, last)
      return curve(at)
    }
  })
  return (at, asked) => {
    const stage = isIn(course, asked, at) ? asked : stages.findIndex((_, index) => isIn(course, index, at))
    // After its end a course stays as it was.
    return (curves[stage < 0 ? stages.length - 1 : stage] ?? (() => Number.NaN))(at)
  }
}

/**
 * Span of a curve at the samples of another course of the same job: what else a probe may show at that moment of the
 * clock, though a stage that waits for a temperature has already ended in one variant and not in another.
 * @returns how far below and above the nominal curve. Shape: as course.t
 */
export function spanOfCurve(
  variants: Variants,
  course: Course,
  read: (course: Course) => Float64Array,
): { readonly below: Float64Array; readonly above: Float64Array } {
  const { nominal, moved } = variants
  const samples = course.t.length
  /** Moment of the nominal course, and the stage, that correspond to each sample. */
  const moments = new Float64Array(samples)
  const stageOf = new Int32Array(samples)
  for (const [index, own] of course.stages.entries()) {
    const other = nominal.stages[index]!
    for (let i = own.first; i <= own.last; i++) {
      const share = own.to === own.from ? 0 : (course.t[i]! - own.from) / (own.to - own.from)
      moments[i] = other.from + share * (other.to - other.from)
      stageOf[i] = index
    }
  }
  const onCourse = (one: Course): Float64Array => {
    const at = clockReader(one, read(one))
    return moments.map((moment, i) => at(moment, stageOf[i]!))
  }
  const middle = onCourse(nominal)
  const below = new Float64Array(samples)
  const above = new Float64Array(samples)
  let lowest = Number.POSITIVE_INFINITY
  let highest = Number.NEGATIVE_INFINITY
  for (const value of middle) {
    lowest = Math.min(lowest, Number.isNaN(value) ? lowest : value)
    highest = Math.max(highest, Number.isNaN(value) ? highest : value)
  }
  /** Whether some variant is in another stage then. */
  const apart = new Uint8Array(samples)
  for (const { course: other, bound, mirrored } of moved) {
    const values = onCourse(other)
    for (let i = 0; i < samples; i++) {
      if (!isIn(other, stageOf[i]!, moments[i]!)) apart[i] = 1
      const shift = deviation(values[i]! - middle[i]!, bound)
      if (shift < 0 || mirrored === true) below[i] = below[i]! + shift * shift
      if (shift > 0 || mirrored === true) above[i] = above[i]! + shift * shift
    }
  }
  // Between two stages shifts are jumps and don't add up: nothing lies beyond what the whole course passes through.
  const within = (sum: number, i: number, room: number): number => {
    const shift = SPAN * Math.sqrt(sum)
    return apart[i] === 1 ? Math.min(shift, Math.max(0, room)) : shift
  }
  return {
    below: below.map((sum, i) => within(sum, i, middle[i]! - lowest)),
    above: above.map((sum, i) => within(sum, i, highest - middle[i]!)),
  }
}
