import { computeJourney, joinGrids } from '../../src/core/journey/journey.ts'
import { resolutions } from '../../src/core/journey/resolution.ts'
import { bar, block, demand, disc, outputsAt, outputsOf, slab, worstOf } from './parts/reference-jobs.ts'
import { figures, ms, type Table } from './parts/table.ts'
import { timed } from './parts/timing.ts'

/*
 * Warm computations of the reference jobs, from their start to the curves of centre, face and mean, on the fine and the
 * coarse grid; grids and tables are there from the run before, as in a spread. Once as coarse as 0.2 K on every output
 * allows, once at the standard setting that the program uses. The fine setting in the same run gives the accuracy.
 */

const rows = [slab, bar, block, disc].flatMap(({ name, job, hours, coarsest, good_ms, aim_ms }) => {
  const exact = outputsAt(computeJourney(job, 'fine').course, hours)
  return (
    [
      ['within 0.2 K', coarsest],
      ['standard', resolutions.standard],
    ] as const
  ).map(([setting, resolution]) => {
    const { course, coarse } = joinGrids(job, resolution)
    const worst = worstOf(outputsAt(course, hours), exact)
    demand(worst < 0.2, `${name} is ${worst} K from the fine setting`)
    demand(course.energyResidual < 1e-8, `${name} loses heat`)
    const { median_ms, least_ms, runs } = timed(() => outputsOf(joinGrids(job, resolution).course))
    const work = course.cells * course.steps + coarse.cells * coarse.steps
    return [
      `${name}, ${setting}`,
      ms(median_ms),
      ms(least_ms),
      String(runs),
      `${good_ms} / ${aim_ms} ms`,
      `${worst.toFixed(3)} K`,
      course.energyResidual.toExponential(1),
      `${course.cells} × ${course.steps}`,
      figures((1e6 * least_ms) / work),
    ]
  })
})

export const tables: readonly Table[] = [
  {
    title: 'Reference jobs',
    about:
      'Warm, fine and coarse grid together, curves included. The error is the largest of three outputs at four hours, against the fine setting in the same run.',
    columns: [
      'job',
      'median',
      'least',
      'runs',
      'good / aim',
      'error',
      'energy residual',
      'cells × steps of the finer grid',
      'ns per cell and step (least)',
    ],
    rows,
  },
]
