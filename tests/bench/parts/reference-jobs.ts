import type { Body } from '../../../src/core/geometry/body.ts'
import { barBody } from '../../../src/core/geometry/shapes/bar.ts'
import { blockBody } from '../../../src/core/geometry/shapes/block.ts'
import { sheetBody } from '../../../src/core/geometry/shapes/sheet.ts'
import { troughBody } from '../../../src/core/geometry/shapes/trough.ts'
import type { Course } from '../../../src/core/journey/course.ts'
import type { Job } from '../../../src/core/journey/job.ts'
import type { Resolution } from '../../../src/core/journey/resolution.ts'
import { fixedMaterial } from '../../../src/core/materials/fixed.ts'
import { air, freezingCustard, jobOf, read, stage } from '../../physics/jobs.ts'

/* The reference jobs of the solver, with what is followed in each: the middle, the middle of the upper face, the mean. */

const middle = { x: 0.5, y: 0.5, z: 0.5 }
const top = { x: 0.5, y: 1, z: 0.5 }

export interface ReferenceJob {
  readonly name: string
  readonly job: Job
  readonly hours: readonly number[]
  /** The coarsest grid and steps that stay within 0.2 K at those hours. */
  readonly coarsest: Resolution
  /** What a bare solver in plain JavaScript was found to allow, and what a better one should reach, ms. */
  readonly good_ms: number
  readonly aim_ms: number
}

/** A grid of as many cells on each half axis, and its steps. */
export const gridOf = (perHalf: number, steps: Omit<Resolution, 'perHalf' | 'halved'>): Resolution => ({
  perHalf: [perHalf, perHalf, perHalf],
  halved: false,
  ...steps,
})

const chilled = (body: Body, thickness: number): Job =>
  jobOf(body, freezingCustard, thickness, 60, [stage(body, air(12, 20), 4), stage(body, air(12, -20), 48)])

export const slab: ReferenceJob = {
  name: 'slab of custard, 52 h',
  job: chilled(sheetBody({}), 0.12),
  hours: [8, 16, 24, 36],
  coarsest: gridOf(6, { tolerance_K: 1, firstStep: 20, longestStep: 14_400 }),
  good_ms: 0.25,
  aim_ms: 0.1,
}

/** Half sides of the bar's section, m, and its film, W/(m² K). */
export const BAR = { width: 0.4, height: 0.2, h: 12 } as const

export const bar: ReferenceJob = {
  name: 'bar section of custard, 52 h',
  job: chilled(barBody({ width: BAR.width, length: 2 }), BAR.height),
  hours: [8, 16, 24, 48],
  coarsest: gridOf(10, { tolerance_K: 0.5, firstStep: 30, longestStep: 3600 }),
  good_ms: 4,
  aim_ms: 1.5,
}

/** Film of the open flat, W/(m² K); film and 8 mm of PVC under the arc, m² K/W. */
export const DISC = { radius: 0.2, flat_h: 10, PVC: 0.008 / 0.19, arc_h: 8 } as const

const discJob = ((): Job => {
  const body = troughBody({ radius: DISC.radius, length: 2 })
  const faces = (air_C: number) => ({
    top: air(DISC.flat_h, air_C),
    curved: { ...air(DISC.arc_h, air_C), resistances: [{ name: 'PVC', R: DISC.PVC }] },
  })
  const lived = (h: number, air_C: number) => ({ ...stage(body, air(DISC.flat_h, air_C), h), faces: faces(air_C) })
  return {
    ...jobOf(body, freezingCustard, DISC.radius, 60, [lived(4, 20), lived(48, -20)]),
    fill: [{ name: 'fill[0]', material: freezingCustard, thickness: null, start_C: 60 }],
  }
})()

export const disc: ReferenceJob = {
  name: 'half-disc of custard in PVC, 52 h',
  job: discJob,
  hours: [8, 16, 24, 48],
  coarsest: gridOf(8, { tolerance_K: 0.5, firstStep: 20, longestStep: 3600 }),
  good_ms: 25,
  aim_ms: 8.5,
}

const blockOf = blockBody({ width: 0.6, length: 0.8 })
const baked = fixedMaterial({ id: 'baked', title: 'Baked', k: 0.4, rho: 500, c: 2800 })

export const block: ReferenceJob = {
  name: 'block baked and cooled, 16 h',
  job: jobOf(blockOf, baked, 0.16, 20, [stage(blockOf, air(25, 180), 4), stage(blockOf, air(8, 25), 12)]),
  hours: [3, 5, 8, 12],
  coarsest: gridOf(8, { tolerance_K: 0.5, firstStep: 20, longestStep: 3600 }),
  good_ms: 15,
  aim_ms: 5.4,
}

/** Curves of what is followed. */
export const outputsOf = (course: Course): Float64Array[] => [course.follow(middle), course.follow(top), course.mean_C]

/** The curves at some hours, one after the other. Shape: hours × outputs */
export function outputsAt(course: Course, hours: readonly number[], curves = outputsOf(course)): number[] {
  return hours.flatMap((h) => curves.map((curve) => read(course, curve, h)))
}

/** The largest of the differences, K. */
export const worstOf = (values: readonly number[], exact: readonly number[]): number =>
  values.reduce((worst, value, i) => Math.max(worst, Math.abs(value - exact[i]!)), 0)

/** Ends the bench where a figure would be worth nothing. */
export function demand(held: boolean, what: string): void {
  if (!held) throw new Error(`bench: ${what}`)
}
