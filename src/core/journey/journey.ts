import type { Control } from '../control.ts'
import { dimensionsOf } from '../geometry/body.ts'
import { causesOf } from './causes.ts'
import type { Course } from './course.ts'
import { runOnGrid } from './grid-journey.ts'
import type { Fidelity, Job } from './job.ts'
import { meshesOf } from './meshes.ts'
import { type Refined, refine } from './refined.ts'
import { coarsePartner, type Resolution, resolutions } from './resolution.ts'

/** Share of the work that the coarse partner takes, by dimensions. */
const COARSE_SHARE = [0.3, 0.15, 0.08] as const

/** A journey with what is known of its error. */
export interface Journey {
  readonly course: Course
  /** The course on the coarse grid, for comparisons between variants of a job; the course itself when quick. */
  readonly coarse: Course
  readonly error: Refined['error'] | undefined
}

/** All stages of a job in order, at the asked fidelity; throws `ComputeError` or `Cancelled`. */
export function computeJourney(job: Job, fidelity: Fidelity, control: Control = {}): Journey {
  const resolution = resolutions[fidelity]
  if (fidelity === 'quick') {
    const course = runOnGrid(job, resolution, control)
    return { course, coarse: course, error: undefined }
  }
  return joinGrids(job, resolution, control)
}

/** A job on a grid and on its coarse partner, joined to one course of higher order. */
export function joinGrids(job: Job, resolution: Resolution, control: Control = {}): Journey {
  const share = COARSE_SHARE[Math.min(dimensionsOf(job.body), 3) - 1]!
  const part = (from: number, to: number): Control => ({
    ...control,
    report: (done, doing) => control.report?.(from + (to - from) * done, doing),
  })
  // The finer grids are made first: where they are too large, that is told before anything is computed.
  meshesOf(job, resolution)
  const coarse = runOnGrid(job, coarsePartner(resolution), part(0, share))
  const fine = runOnGrid(job, resolution, part(share, 1))
  const { range_C, driven } = causesOf(job)
  const limits: [number, number] = driven ? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] : [...range_C]
  const { course, error } = refine(fine, coarse, limits)
  return { course, coarse, error }
}

/** The course alone, for whoever needs no error. */
export function runJourney(job: Job, options: { readonly fidelity: Fidelity }, control: Control = {}): Course {
  return computeJourney(job, options.fidelity, control).course
}
