import { barBody } from '../../src/core/geometry/shapes/bar.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import { findCore } from '../../src/core/journey/core-place.ts'
import type { Course } from '../../src/core/journey/course.ts'
import { runOnGrid } from '../../src/core/journey/grid-journey.ts'
import type { Job } from '../../src/core/journey/job.ts'
import type { Resolution } from '../../src/core/journey/resolution.ts'
import { judgeDanger } from '../../src/core/outcomes/danger.ts'
import { judgeGrowth } from '../../src/core/outcomes/growth/growth-report.ts'
import { judgeRule } from '../../src/core/outcomes/rule-verdict.ts'
import { findRule } from '../../src/core/outcomes/rules.ts'
import { judgeTarget } from '../../src/core/outcomes/targets/index.ts'
import { air, freezingCustard, jobOf, stage } from '../physics/jobs.ts'
import { gridOf } from './parts/reference-jobs.ts'
import { figures, type Table } from './parts/table.ts'
import { processor_ms, warmUp } from './parts/timing.ts'

/*
 * How the work grows: with cells, steps, layers and probes, each alone, as the exponent of a power law through the least
 * of several runs. A step of the solver has as many stages as its thinnest cell asks for, so that solving a section
 * grows with the power 1.5 of its cells, and 2 where there is one dimension; all else is to grow with them, no faster.
 */

const RUNS = 5
const steps = { tolerance_K: 0.5, firstStep: 20, longestStep: 3600 }

const chilled = (body: ReturnType<typeof barBody>, thickness: number): Job =>
  jobOf(body, freezingCustard, thickness, 60, [stage(body, air(12, 20), 4), stage(body, air(12, -20), 48)])

const least = (run: () => void): number => {
  warmUp(run, 1500)
  return Math.min(...Array.from({ length: RUNS }, () => processor_ms(run)))
}

interface Point {
  readonly size: number
  readonly ms: number
}

/** Exponent of the power law that passes by some points best. */
function exponentOf(points: readonly Point[]): number {
  const x = points.map(({ size }) => Math.log(size))
  const y = points.map(({ ms }) => Math.log(ms))
  const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length
  const [mx, my] = [mean(x), mean(y)]
  const slope = x.reduce((sum, one, i) => sum + (one - mx) * (y[i]! - my), 0)
  return slope / x.reduce((sum, one) => sum + (one - mx) ** 2, 0)
}

const row = (what: string, of: string, bound: string, points: readonly Point[]): string[] => [
  what,
  of,
  points.map(({ size, ms }) => `${figures(size)}: ${figures(ms)}`).join(', '),
  exponentOf(points).toFixed(2),
  bound,
]

const bar = chilled(barBody({ width: 0.4, length: 2 }), 0.2)
const slab = chilled(sheetBody({}), 0.12)

/** The same work on finer and finer grids. */
function overCells(job: Job, perHalf: readonly number[], work: (grid: Resolution) => () => void): Point[] {
  return perHalf.map((n) => {
    const grid = gridOf(n, steps)
    return { size: runOnGrid(job, grid).cells, ms: least(work(grid)) }
  })
}

const fresh = (grid: Resolution): Course => runOnGrid(bar, grid)
const rule = findRule('fda-food-code-2022')!
const SECTIONS = [8, 16, 32]

/** What is made of a course, each time of another one, as much of it is made once. */
function afterwards(work: (course: Course) => unknown): Point[] {
  return SECTIONS.map((n) => {
    const grid = gridOf(n, steps)
    const times = Array.from({ length: RUNS + 1 }, () => {
      const course = fresh(grid)
      return processor_ms(() => work(course))
    })
    return { size: fresh(grid).cells, ms: Math.min(...times.slice(1)) }
  })
}

const withLayers = (count: number): Job => ({
  ...slab,
  fill: Array.from({ length: count }, (_, i) => ({
    name: `fill[${i}]`,
    material: freezingCustard,
    thickness: 0.12 / count,
    start_C: 60,
  })),
})

const rows = [
  row(
    'solving a slab',
    'cells',
    '2: stages grow as cells do',
    overCells(slab, [16, 32, 64, 128], (grid) => () => runOnGrid(slab, grid)),
  ),
  row(
    'solving a section',
    'cells',
    '1.5: stages grow as the root of cells',
    overCells(bar, SECTIONS, (grid) => () => runOnGrid(bar, grid)),
  ),
  row(
    'histories of all places',
    'cells',
    '1',
    afterwards((course) => course.places()),
  ),
  row('the slowest place', 'cells', '1', afterwards(findCore)),
  row(
    'a rule at every place',
    'cells',
    '1',
    afterwards((course) => judgeRule(rule, course, findCore(course))),
  ),
  row(
    'growth at every place',
    'cells',
    '1',
    afterwards((course) => judgeGrowth(course, findCore(course))),
  ),
  row(
    'hours in the danger zone',
    'cells',
    '1',
    afterwards((course) => judgeDanger(course, findCore(course))),
  ),
  row(
    'a target',
    'cells',
    '1',
    afterwards((course) => judgeTarget({ kind: 'frozen', index: 0, core_C: -10 }, course)),
  ),
  row(
    'solving with shorter steps',
    'steps',
    '1: shorter steps have fewer stages each',
    [1, 0.1, 0.01].map((tolerance_K) => {
      const grid = gridOf(12, { ...steps, tolerance_K })
      return { size: runOnGrid(bar, grid).steps, ms: least(() => runOnGrid(bar, grid)) }
    }),
  ),
  row(
    'solving a slab of the same height in layers',
    'layers',
    '2: each has cells of its own, and stages grow as cells do',
    [2, 4, 8, 16].map((count) => ({ size: count, ms: least(() => runOnGrid(withLayers(count), gridOf(16, steps))) })),
  ),
  row(
    'curves of probes',
    'probes',
    '1',
    [4, 16, 64].map((count) => {
      const course = fresh(gridOf(12, steps))
      const places = Array.from({ length: count }, (_, i) => ({ x: 0.5, y: (i + 0.5) / count, z: 0.5 }))
      return { size: count, ms: least(() => places.map((place) => course.follow(place))) }
    }),
  ),
]

export const tables: readonly Table[] = [
  {
    title: 'How the work grows',
    about:
      'Milliseconds of the processor at each size, the least of several, and the exponent of the power law through them.',
    columns: ['what', 'with', 'size: ms', 'exponent', 'no more than'],
    rows,
  },
]
