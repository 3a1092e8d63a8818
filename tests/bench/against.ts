import { spawnSync } from 'node:child_process'
import { join } from 'node:path'
import { Solver } from 'odex'
import { joinGrids } from '../../src/core/journey/journey.ts'
import type { Resolution } from '../../src/core/journey/resolution.ts'
import { type Asked, byElements } from './parts/elements.ts'
import {
  BELOW,
  barLines,
  derivativeOf,
  discLines,
  FREEZES_C,
  type Lines,
  mean_C,
  S_OF,
  STEP,
  startEnthalpy,
  T_OF,
} from './parts/lines.ts'
import {
  BAR,
  bar,
  DISC,
  demand,
  disc,
  gridOf,
  outputsAt,
  outputsOf,
  type ReferenceJob,
  worstOf,
} from './parts/reference-jobs.ts'
import { figures, ms, type Table } from './parts/table.ts'
import { median, processor_ms, timed } from './parts/timing.ts'

/*
 * The bar section and the half-disc beside general solvers of ordinary differential equations, in the same run and at
 * equal accuracy: the largest error of three outputs at every half hour, against the core on a very fine grid. Each
 * solver has the grid and the tolerance that reach that accuracy soonest among those tried; what was chosen stands in
 * the table.
 */

const SCRIPT = join(import.meta.dirname, '../../tests/bench/parts/lines.py')
const HOURS = Array.from({ length: 103 }, (_, i) => 0.5 + i / 2)
/** Hours until the air changes, and until the end; °C of both airs. */
const STAGES = [
  { end_h: 4, air_C: 20 },
  { end_h: 52, air_C: -20 },
] as const
/** Heat of a kelvin of the frozen custard, J/(m³ K): what a tolerance in K is in that of the unknown. */
const PER_K = 2.05e6
const EXACT = gridOf(40, { tolerance_K: 0.02, firstStep: 2, longestStep: 3600 })

interface Contest {
  readonly job: ReferenceJob
  readonly core: Resolution
  /** What all are to reach, K. */
  readonly limit_K: number
  readonly grid: string
  readonly lines: Lines
  /** Tolerances, K. */
  readonly odex_K: number
  readonly scipy_K: { readonly BDF: number; readonly LSODA: number }
  readonly elements: Asked
}

const contests: readonly Contest[] = [
  {
    job: bar,
    core: gridOf(12, { tolerance_K: 0.5, firstStep: 30, longestStep: 3600 }),
    limit_K: 0.23,
    grid: '16 × 16',
    lines: barLines(BAR.width, BAR.height, 16, 16, 0.6, BAR.h),
    odex_K: 0.01,
    scipy_K: { BDF: 0.1, LSODA: 0.1 },
    elements: {
      ...{ isBar: true, width: BAR.width / 2, height: BAR.height / 2, Rabove: 1 / BAR.h, Rside: 1 / BAR.h },
      ...{ finest: 0.004, coarser: 0.12, within: 0.05, steps1: 3, steps2: 3, runs: 3 },
    },
  },
  {
    job: disc,
    core: gridOf(6, { tolerance_K: 0.5, firstStep: 10, longestStep: 3600 }),
    limit_K: 0.3,
    grid: '22 rings of up to 16 sectors',
    lines: discLines(DISC.radius, 22, 16, 0.4, { h: DISC.flat_h }, { R: 1 / DISC.arc_h + DISC.PVC }),
    odex_K: 0.5,
    scipy_K: { BDF: 0.03, LSODA: 0.1 },
    elements: {
      ...{ isBar: false, width: DISC.radius, height: 0, Rabove: 1 / DISC.flat_h, Rside: 1 / DISC.arc_h + DISC.PVC },
      ...{ finest: 0.007, coarser: 0.12, within: 0.05, steps1: 3, steps2: 3, runs: 3 },
    },
  },
]

const airAt = (h: number): number => STAGES.find(({ end_h }) => h <= end_h)!.air_C

/** The three outputs of a state. */
const outputsOfState = (lines: Lines, H: ArrayLike<number>, air_C: number): number[] => [
  lines.middle_C(H),
  lines.top_C(H, air_C),
  mean_C(lines, H),
]

/** The outputs at every half hour, as straight lines between the solver's own steps, which are minutes. */
function byOdex(lines: Lines, tolerance_K: number): { readonly values: number[]; readonly evaluations: number } {
  let air_C = 0
  const derivative = derivativeOf(lines, () => air_C)
  const solver = new Solver(lines.volume.length)
  solver.maxSteps = 1e7
  solver.absoluteTolerance = tolerance_K * PER_K
  solver.relativeTolerance = 1e-12
  let H = new Array<number>(lines.volume.length).fill(startEnthalpy(60))
  let [t, evaluations, due] = [0, 0, 0]
  const values: number[] = []
  for (const stage of STAGES) {
    air_C = stage.air_C
    let before = { t, outputs: outputsOfState(lines, H, air_C) }
    const done = solver.solve(derivative, t, H, 3600 * stage.end_h, (_step, _from, to, state) => {
      if (to === before.t) return
      const now = { t: to, outputs: outputsOfState(lines, state, air_C) }
      for (; due < HOURS.length && 3600 * HOURS[due]! <= to + 1e-6; due++) {
        const share = (3600 * HOURS[due]! - before.t) / (now.t - before.t)
        values.push(...now.outputs.map((value, i) => before.outputs[i]! + share * (value - before.outputs[i]!)))
      }
      before = now
    })
    H = done.y
    t = 3600 * stage.end_h
    evaluations += done.nEval
  }
  return { values, evaluations }
}

interface ByScipy {
  readonly method: 'BDF' | 'LSODA'
  readonly states: readonly (readonly number[])[]
  readonly seconds: readonly number[]
}

/** The same cells by scipy; nothing where it is not installed. */
function byScipy(lines: Lines, scipy_K: Contest['scipy_K']): readonly ByScipy[] {
  const column = <Row, Key extends keyof Row>(rows: readonly Row[], key: Key): Row[Key][] => rows.map((row) => row[key])
  const { links, faces } = lines
  const input = JSON.stringify({
    volume: [...lines.volume],
    links: { a: column(links, 'a'), b: column(links, 'b'), G: column(links, 'G') },
    faces: { cell: column(faces, 'cell'), area: column(faces, 'area'), w: column(faces, 'w'), R: column(faces, 'R') },
    T: [...T_OF],
    S: [...S_OF],
    step: STEP,
    below: BELOW,
    freezes_C: FREEZES_C,
    start: startEnthalpy(60),
    stages: STAGES.map(({ end_h, air_C }) => [end_h, air_C]),
    hours: HOURS,
    methods: Object.entries(scipy_K).map(([method, tolerance_K]) => [method, tolerance_K * PER_K]),
    runs: 3,
  })
  const { status, stdout, stderr } = spawnSync('python3', [SCRIPT], { input, encoding: 'utf8', maxBuffer: 1e9 })
  if (status === 0)
    return stdout
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as ByScipy)
  if (status !== null && !/No module named/.test(stderr)) throw new Error(`bench: scipy stopped\n${stderr}`)
  return []
}

const rows = contests.flatMap(({ job, core, limit_K, grid, lines, odex_K, scipy_K, elements }): string[][] => {
  const exact = outputsAt(joinGrids(job.job, EXACT).course, HOURS)
  const error = (values: readonly number[]): string => {
    const worst_K = worstOf(values, exact)
    return `${worst_K.toFixed(3)} K${worst_K < limit_K ? '' : `, misses ${limit_K} K`}`
  }
  const { course } = joinGrids(job.job, core)
  const own_K = worstOf(outputsAt(course, HOURS), exact)
  demand(own_K < limit_K, `${job.name} is ${own_K} K off where ${limit_K} K are asked`)
  const own = timed(() => outputsOf(joinGrids(job.job, core).course), processor_ms)
  const cells = `${lines.volume.length} cells (${grid})`
  const odex = byOdex(lines, odex_K)
  const odexTimes = Array.from({ length: 5 }, () => processor_ms(() => byOdex(lines, odex_K)))
  const line = (solver: string, setting: string, off: string, took_ms: number, runs: number): string[] => [
    job.name,
    solver,
    setting,
    off,
    ms(took_ms),
    String(runs),
    figures(took_ms / own.median_ms),
  ]
  const scipy = byScipy(lines, scipy_K)
  const finite = byElements(elements)
  return [
    line(
      'the core',
      `${course.cells} cells and their coarse partner, ${course.steps} steps`,
      error(outputsAt(course, HOURS)),
      own.median_ms,
      own.runs,
    ),
    line(
      'odex',
      `${cells}, tolerance ${odex_K} K, ${odex.evaluations} evaluations`,
      error(odex.values),
      median(odexTimes),
      odexTimes.length,
    ),
    ...scipy.map(({ method, states, seconds }) => {
      const values = states.flatMap((state, i) => outputsOfState(lines, state, airAt(HOURS[i]!)))
      return line(
        `scipy ${method}`,
        `${cells}, tolerance ${scipy_K[method]} K`,
        error(values),
        1000 * median(seconds),
        seconds.length,
      )
    }),
    ...(scipy.length === 0 ? [[job.name, 'scipy', 'not installed', '', '', '', '']] : []),
    finite === undefined
      ? [job.name, 'FreeFEM', 'not installed', '', '', '', '']
      : line(
          'FreeFEM',
          `${finite.corners} corners, ${8 * elements.steps1 + 96 * elements.steps2} steps`,
          error(finite.values.slice(0, 3 * HOURS.length)),
          1000 * median(finite.seconds),
          finite.seconds.length,
        ),
  ]
})

export const tables: readonly Table[] = [
  {
    title: 'Beside general solvers, at equal accuracy',
    about:
      'The method of lines in enthalpy and the integral of conductivity, by table, on a grid finer towards the surface; FreeFEM by finite elements with lumped heat and implicit steps of two, its own meshes and its own language; the error is the largest of three outputs at every half hour against the core on 40 cells a half axis. Of the grids and tolerances tried, the general solvers have those with which odex reaches it soonest. Times are of the processor.',
    columns: ['job', 'solver', 'setting', 'error', 'median', 'runs', 'times as long as the core'],
    rows,
  },
]
