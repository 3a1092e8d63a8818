import type { Body } from '../../src/core/geometry/body.ts'
import { barBody } from '../../src/core/geometry/shapes/bar.ts'
import { blockBody } from '../../src/core/geometry/shapes/block.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import { troughBody } from '../../src/core/geometry/shapes/trough.ts'
import type { Course } from '../../src/core/journey/course.ts'
import type { Job } from '../../src/core/journey/job.ts'
import { computeJourney, joinGrids } from '../../src/core/journey/journey.ts'
import { type Resolution, resolutions } from '../../src/core/journey/resolution.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import { air, freezingCustard, jobOf, read, stage } from '../physics/jobs.ts'

/*
 * Warm computations of the reference jobs, from their start to the curves of centre, face and mean, on the fine and the
 * coarse grid; grids and tables are there from the run before, as in a spread. Once as coarse as 0.2 K on every output allows, once at the standard setting that the program uses.
 * The fine setting in the same run gives the accuracy.
 */

const RUNS = 20
const WARM_MS = 4000

const middle = { x: 0.5, y: 0.5, z: 0.5 }
const top = { x: 0.5, y: 1, z: 0.5 }

interface Bench {
  readonly name: string
  readonly job: Job
  readonly hours: readonly number[]
  /** The coarsest grid and steps that stay within 0.2 K. */
  readonly coarsest: Omit<Resolution, 'perHalf' | 'halved'> & { readonly perHalf: number }
  /** What a bare solver in plain JavaScript was found to allow, ms. */
  readonly good_ms: number
}

const chilled = (body: Body, thickness: number): Job =>
  jobOf(body, freezingCustard, thickness, 60, [stage(body, air(12, 20), 4), stage(body, air(12, -20), 48)])

/** Radius 0.2 m, open flat, the arc through 8 mm of PVC. */
const halfDisc = ((): Job => {
  const body = troughBody({ radius: 0.2, length: 2 })
  const faces = (air_C: number) => ({
    top: air(10, air_C),
    curved: { ...air(8, air_C), resistances: [{ name: 'PVC', R: 0.008 / 0.19 }] },
  })
  const lived = (h: number, air_C: number) => ({ ...stage(body, air(10, air_C), h), faces: faces(air_C) })
  return {
    ...jobOf(body, freezingCustard, 0.2, 60, [lived(4, 20), lived(48, -20)]),
    fill: [{ name: 'fill[0]', material: freezingCustard, thickness: null, start_C: 60 }],
  }
})()

const block = blockBody({ width: 0.6, length: 0.8 })
const baked = fixedMaterial({ id: 'baked', title: 'Baked', k: 0.4, rho: 500, c: 2800 })

const benches: readonly Bench[] = [
  {
    name: 'slab of custard, 52 h',
    job: chilled(sheetBody({}), 0.12),
    hours: [8, 16, 24, 36],
    coarsest: { perHalf: 6, tolerance_K: 1, firstStep: 20, longestStep: 14_400 },
    good_ms: 0.25,
  },
  {
    name: 'bar section of custard, 52 h',
    job: chilled(barBody({ width: 0.4, length: 2 }), 0.2),
    hours: [8, 16, 24, 48],
    coarsest: { perHalf: 10, tolerance_K: 0.5, firstStep: 30, longestStep: 3600 },
    good_ms: 4,
  },
  {
    name: 'block baked and cooled, 16 h',
    job: jobOf(block, baked, 0.16, 20, [stage(block, air(25, 180), 4), stage(block, air(8, 25), 12)]),
    hours: [3, 5, 8, 12],
    coarsest: { perHalf: 8, tolerance_K: 0.5, firstStep: 20, longestStep: 3600 },
    good_ms: 15,
  },
  {
    name: 'half-disc of custard in PVC, 52 h',
    job: halfDisc,
    hours: [8, 16, 24, 48],
    coarsest: { perHalf: 12, tolerance_K: 0.5, firstStep: 20, longestStep: 3600 },
    good_ms: 25,
  },
]

const outputs = (course: Course): Float64Array[] => [course.follow(middle), course.follow(top), course.mean_C]

const median = (values: number[]): number => values.sort((a, b) => a - b)[Math.floor(values.length / 2)]!

function demand(held: boolean, what: string): void {
  if (!held) throw new Error(`bench: ${what}`)
}

for (const { name, job, hours, coarsest, good_ms } of benches) {
  const fine = computeJourney(job, 'fine').course
  const exact = outputs(fine)
  const { perHalf, ...steps } = coarsest
  const lean: Resolution = { perHalf: [perHalf, perHalf, perHalf], halved: false, ...steps }
  for (const [setting, resolution] of [
    ['within 0.2 K', lean],
    ['standard', resolutions.standard],
  ] as const) {
    const once = (): { ms: number; course: Course; curves: Float64Array[] } => {
      const began = performance.now()
      const { course } = joinGrids(job, resolution)
      const curves = outputs(course)
      return { ms: performance.now() - began, course, curves }
    }
    // Short jobs need many runs before the compiler is done with them.
    const warm = performance.now() + WARM_MS
    for (let run = 0; run < 60 || performance.now() < warm; run++) once()
    const runs = Array.from({ length: RUNS }, once)
    const { course, curves } = runs[0]!
    let worst = 0
    for (const [index, curve] of curves.entries()) {
      for (const h of hours) worst = Math.max(worst, Math.abs(read(course, curve, h) - read(fine, exact[index]!, h)))
    }
    console.info(
      `${name}, ${setting}: median ${median(runs.map((run) => run.ms)).toFixed(2)} ms (good ${good_ms}), ` +
        `${course.cells} cells, ${course.steps} steps, ${worst.toFixed(3)} K from fine, ` +
        `energy residual ${course.energyResidual.toExponential(1)}`,
    )
    demand(worst < 0.2, `${name} is ${worst} K from the fine setting`)
    demand(course.energyResidual < 1e-8, `${name} loses heat`)
  }
}
