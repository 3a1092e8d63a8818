import { join } from 'node:path'
import { whatWouldHelp } from '../../src/core/choosing/help.ts'
import { findLimit } from '../../src/core/choosing/limit.ts'
import { oneNumber } from '../../src/core/choosing/one-number.ts'
import type { Control } from '../../src/core/control.ts'
import { computeSamples, prepareSpread } from '../../src/core/deciding/spread-samples.ts'
import { fitPlan } from '../../src/core/fitting/fit.ts'
import { forecast } from '../../src/core/forecast.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { samplesFromPool } from '../../src/core/pooled/sampled.ts'
import { openThreads, usualWorkers } from '../../src/main/pool/pool.ts'
import { barPlan } from './parts/bar-plan.ts'
import { ms, type Table } from './parts/table.ts'
import { median, processor_ms, warmUp } from './parts/timing.ts'

/*
 * What takes many computations, on a bar in its section over two days: a spread of 500, what would help, how thick at
 * most, and a fit. On one thread the time of the processor is told, which other work on the machine does not stretch.
 */

const RUNS = 500
const ASK = { runs: RUNS, seed: 1 }
const REPEATS = 3
const question = { of: 'target', index: 0 } as const

/** Readings of the core that a freezer would give which passes four fifths of the heat that is taken. */
function readings() {
  const slower: Plan = {
    ...barPlan,
    stages: barPlan.stages.map((stage) => ({ ...stage, in: { air_C: -20, h_W_m2K: 9.6 } })),
  }
  const { times_h, curves } = forecast({ ...slower, stages: [barPlan.stages[0]!, slower.stages[1]!] })
  const core = curves.core!
  return Array.from({ length: 12 }, (_, i) => {
    const at = times_h.findIndex((h) => h >= 2 * (i + 1))
    return { probe: 'core', at_h: times_h[at]!, C: core[at]! }
  })
}

const repeated = (run: () => void): number => {
  warmUp(run, 1000)
  return median(Array.from({ length: REPEATS }, () => processor_ms(run)))
}

const task = prepareSpread(barPlan, ASK)
computeSamples(task, 0, 20)
const spread_ms = processor_ms(() => computeSamples(task, 0, RUNS))

const workers = usualWorkers()
const file = join(import.meta.dirname, '../main/pool-worker.js')
const pooled: number[] = []
for (let i = 0; i < REPEATS; i++) {
  const began = performance.now()
  await samplesFromPool(openThreads('spread', { plan: barPlan, ask: ASK }, { file, workers }), ASK)
  pooled.push(performance.now() - began)
}

/** Longest time of the processor between two looks at whether work is wanted, ms: no cancel waits longer within a run. */
function longestBetweenLooks(run: (control: Control) => void): number {
  let longest = 0
  let last = process.cpuUsage()
  const stopped = (): boolean => {
    longest = Math.max(longest, process.cpuUsage(last).user / 1000)
    last = process.cpuUsage()
    return false
  }
  run({ stopped })
  stopped()
  return longest
}

/** From a cancel to the end of a spread on the pool with what was done of it, ms. */
async function cancelledSpread(): Promise<number> {
  const cancel = new AbortController()
  let asked = 0
  const report = (share: number): void => {
    // Late enough that the forecast, which a spread is told beside, is there.
    if (share < 0.5 || asked > 0) return
    asked = performance.now()
    cancel.abort()
  }
  const { signal } = cancel
  await samplesFromPool(openThreads('spread', { plan: barPlan, ask: ASK }, { file, workers, signal }), ASK, report)
  return performance.now() - asked
}

const cancelled: number[] = []
for (let i = 0; i < REPEATS; i++) cancelled.push(await cancelledSpread())

const measured = readings()
const searched = { end: 'greatest', from: 60, to: 260 } as const
const looks = [
  ['forecast', (control: Control) => forecast(barPlan, control)],
  [
    'spread',
    (control: Control) => computeSamples(prepareSpread(barPlan, { runs: 20, seed: 1 }, control), 0, 20, control),
  ],
  ['what would help', (control: Control) => whatWouldHelp(barPlan, question, {}, control)],
  [
    'how thick at most',
    (control: Control) => findLimit(oneNumber(barPlan, 'fill[0].thickness_mm'), question, searched, control),
  ],
  ['fit', (control: Control) => fitPlan(barPlan, measured, {}, control)],
] as const
const rows = [
  [`spread of ${RUNS} runs, one thread`, ms(spread_ms), 'processor', '1', `${ms(spread_ms / RUNS)} a run`],
  [
    `spread of ${RUNS} runs, ${workers} workers`,
    ms(median(pooled)),
    'wall, from cold workers on',
    String(REPEATS),
    'with the forecast that it is told beside',
  ],
  [
    `the same spread, cancelled half-way`,
    ms(median(cancelled)),
    'wall, from the cancel on',
    String(REPEATS),
    'until what was done of it is there (goal 100 ms)',
  ],
  ...looks.map(([name, run]) => [
    `${name}: longest between two looks at its cancel`,
    ms(longestBetweenLooks(run)),
    'processor',
    '1',
    'goal 100 ms',
  ]),
  ['what would help', ms(repeated(() => whatWouldHelp(barPlan, question))), 'processor', String(REPEATS), ''],
  [
    'how thick at most',
    ms(repeated(() => findLimit(oneNumber(barPlan, 'fill[0].thickness_mm'), question, searched))),
    'processor',
    String(REPEATS),
    '',
  ],
  [
    `fit of ${measured.length} readings`,
    ms(repeated(() => fitPlan(barPlan, measured))),
    'processor',
    String(REPEATS),
    '',
  ],
]

export const tables: readonly Table[] = [
  {
    title: 'Deciding',
    about:
      'A bar of custard in its section, four hours on the bench and two days in a freezer, its rule and its target asked.',
    columns: ['what', 'median', 'of', 'runs', ''],
    rows,
  },
]
