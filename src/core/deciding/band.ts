import type { Control } from '../control.ts'
import type { Course } from '../journey/course.ts'
import { runOnGrid } from '../journey/grid-journey.ts'
import type { Job } from '../journey/job.ts'
import type { Resolution } from '../journey/resolution.ts'
import { smooth } from '../journey/series.ts'
import { type Factors, uncertainties, varyJob } from './variation.ts'

/*
 * A first band, without sampling: each uncertain input is moved by one standard deviation up and down on the coarse
 * grid, and the shifts are joined as the root of their squares, for earlier and later separately. Exact for small
 * independent errors; a sampled spread replaces it where time allows.
 */

/** Courses of the job with one input moved each. */
export interface Variants {
  readonly nominal: Course
  readonly moved: readonly { readonly input: keyof Factors; readonly course: Course }[]
}

/** 5 and 95 % of a normal distribution, in standard deviations. */
const SPAN = 1.645

const unchanged: Factors = { film: 1, k: 1, heat: 1, power: 1 }

/** Runs the job with every uncertain input one standard deviation up and down; `nominal` on the same grid. */
export function runVariants(job: Job, resolution: Resolution, nominal: Course, control: Control): Variants {
  const mattering = uncertainties.filter(({ matters }) => matters?.(job) ?? true)
  const tries = mattering.flatMap(({ name, factor }) => [
    { input: name, factors: { ...unchanged, [name]: factor } },
    { input: name, factors: { ...unchanged, [name]: 1 / factor } },
  ])
  const moved = tries.map(({ input, factors }, index) => {
    control.report?.(index / tries.length, 'band')
    const course = runOnGrid(varyJob(job, factors), resolution, {
      ...(control.stopped ? { stopped: control.stopped } : {}),
    })
    return { input, course }
  })
  return { nominal, moved }
}

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
  for (const { course } of variants.moved) {
    const value = read(course)
    if (value === undefined) missing = true
    else if (value < nominal) below += (nominal - value) ** 2
    else above += (value - nominal) ** 2
  }
  return { below: SPAN * Math.sqrt(below), above: SPAN * Math.sqrt(above), missing }
}

/**
 * Span of a curve at the samples of another course of the same job, at equal shares of each stage.
 * @returns how far below and above the nominal curve. Shape: as course.t
 */
export function spanOfCurve(
  variants: Variants,
  course: Course,
  read: (course: Course) => Float64Array,
): { readonly below: Float64Array; readonly above: Float64Array } {
  const onCourse = (one: Course): Float64Array => {
    const values = read(one)
    const result = new Float64Array(course.t.length)
    for (const [index, own] of course.stages.entries()) {
      const other = one.stages[index]!
      const curve = smooth(one.t, values, other.first, other.last)
      for (let i = own.first; i <= own.last; i++) {
        const share = own.to === own.from ? 0 : (course.t[i]! - own.from) / (own.to - own.from)
        result[i] = i === own.first ? values[other.first]! : curve(other.from + share * (other.to - other.from))
      }
    }
    return result
  }
  const nominal = onCourse(variants.nominal)
  const below = new Float64Array(course.t.length)
  const above = new Float64Array(course.t.length)
  for (const { course: moved } of variants.moved) {
    const values = onCourse(moved)
    for (let i = 0; i < values.length; i++) {
      const shift = values[i]! - nominal[i]!
      if (shift < 0) below[i] = below[i]! + shift * shift
      else above[i] = above[i]! + shift * shift
    }
  }
  return { below: below.map((sum) => SPAN * Math.sqrt(sum)), above: above.map((sum) => SPAN * Math.sqrt(sum)) }
}
