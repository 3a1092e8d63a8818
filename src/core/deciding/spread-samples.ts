import type { Control } from '../control.ts'
import { Cancelled } from '../errors.ts'
import type { Place } from '../geometry/body.ts'
import { findCore } from '../journey/core-place.ts'
import type { Course } from '../journey/course.ts'
import { runOnGrid } from '../journey/grid-journey.ts'
import { coarsePartner, type Resolution, resolutions } from '../journey/resolution.ts'
import { judgeFollowed, judgeRule } from '../outcomes/rule-verdict.ts'
import type { Target } from '../outcomes/target.ts'
import { judgeTarget, momentReader } from '../outcomes/targets/index.ts'
import { type ResolvedPlan, resolvePlan } from '../plan/resolve.ts'
import type { Plan } from '../plan/schema/plan.ts'
import { clockReader } from './band.ts'
import { type Drawing, drawnJob, levelOf, startDrawing } from './drawn-job.ts'
import { airKeys, type Input, inputsOf } from './inputs.ts'
import { latinHypercube } from './latin-hypercube.ts'

/** How a spread is asked for; the same plan, runs and seed give the same numbers anywhere. */
export interface SpreadAsk {
  readonly runs: number
  readonly seed: number
}

/** One curve that is followed through all runs. */
export interface SpreadCurve {
  readonly name: string
  readonly read: (course: Course) => Float64Array
}

/**
 * What stands in a row of samples, in this order: of every target the moment (h, Infinity: never) and whether it is
 * met (1 or 0); of every rule's step the hours (Infinity: never done), and whether the rule is met; then the curves at the moments.
 */
export interface Columns {
  readonly targets: number
  /** Steps of each rule. */
  readonly steps: readonly number[]
  readonly curves: readonly string[]
  /** Seconds since the start, with the stage that each belongs to. */
  readonly moments: readonly { readonly at: number; readonly stage: number }[]
  readonly width: number
}

/** What the samples of a spread are told with: plain data. */
export interface SpreadDraws {
  readonly inputs: readonly Input[]
  /** Shape: runs × inputs */
  readonly draws: readonly Float64Array[]
  readonly columns: Columns
  /** The row of the plan as it is, on the grid of the runs. Shape: columns.width */
  readonly nominal: Float64Array
}

/** A spread made ready; every worker makes its own from the same plan. */
export interface SpreadTask extends SpreadDraws {
  readonly resolved: ResolvedPlan
  readonly row: (draw: Float64Array, control: Control) => Float64Array
}

/** Moments of a curve in each stage: quarters of an hour at the least, no more than this many. */
const MOST_MOMENTS = 24
const LEAST_APART = 900

function momentsOf({ stages }: Course): Columns['moments'] {
  return stages.flatMap(({ from, to }, stage) => {
    const parts = Math.max(1, Math.min(MOST_MOMENTS, Math.ceil((to - from) / LEAST_APART)))
    return Array.from({ length: parts + 1 }, (_, part) => ({ at: from + ((to - from) * part) / parts, stage }))
  })
}

/** Targets that are met when they are reached in time; the others are more than a moment. */
const byMoment: ReadonlySet<Target['kind']> = new Set(['cooled', 'frozen', 'set', 'unmould'])

interface Readers {
  readonly targets: readonly ReturnType<typeof momentReader>[]
  readonly worst: readonly Place[]
  readonly curves: readonly SpreadCurve[]
}

function readersOf({ job, targets, rules }: ResolvedPlan, nominal: Course): Readers {
  const core = findCore(nominal)
  return {
    targets: targets.map((target) => momentReader(target, nominal)),
    worst: rules.map((rule) => judgeRule(rule, nominal, core).worst.where),
    curves: [
      { name: 'core', read: (course) => course.follow(core) },
      { name: 'surface', read: (course) => course.surface_C },
      { name: 'mean', read: (course) => course.mean_C },
      { name: 'air', read: (course) => course.air_C },
      ...job.probes.map(({ name, place }) => ({
        name: `probe:${name}`,
        read: (course: Course) => course.follow(place),
      })),
    ],
  }
}

function fillRow(
  row: Float64Array,
  course: Course,
  level: 'low' | 'typical' | 'high',
  { targets, rules }: ResolvedPlan,
  readers: Readers,
  columns: Columns,
): Float64Array {
  let at = 0
  for (const [index, target] of targets.entries()) {
    const moment = readers.targets[index]!(course, level)
    row[at++] = moment ?? Number.POSITIVE_INFINITY
    const met = byMoment.has(target.kind)
      ? moment !== undefined && (target.by === undefined || moment * 3600 <= target.by)
      : judgeTarget(target, course).answer === 'yes'
    row[at++] = met ? 1 : 0
  }
  for (const [index, rule] of rules.entries()) {
    const judged = judgeFollowed(rule, course, readers.worst[index]!)
    for (let step = 0; step < columns.steps[index]!; step++)
      row[at++] = judged.steps[step]?.taken_h ?? Number.POSITIVE_INFINITY
    row[at++] = judged.outcome === 'pass' ? 1 : 0
  }
  for (const { read } of readers.curves) {
    const curve = clockReader(course, read(course))
    for (const { at: moment, stage } of columns.moments) row[at++] = curve(moment, stage)
  }
  return row
}

/** Grid on which the runs of a spread are computed. */
export const gridOf = ({ fidelity }: ResolvedPlan): Resolution =>
  fidelity === 'quick' ? resolutions.quick : coarsePartner(resolutions[fidelity])

/** Resolves the plan, draws its inputs, and runs it once as it is. Throws as `forecast` does. */
export function prepareSpread(
  plan: Plan,
  { runs, seed }: SpreadAsk,
  control: Control = {},
  draw: (runs: number, inputs: number, seed: number) => Float64Array[] = latinHypercube,
): SpreadTask {
  const resolved = resolvePlan(plan)
  const grid = gridOf(resolved)
  const inputs = inputsOf(plan, resolved)
  const drawing: Drawing = startDrawing(resolved.job, inputs, airKeys(plan, resolved.job))
  const stopped = control.stopped === undefined ? {} : { stopped: control.stopped }
  const course = runOnGrid({ ...resolved.job, tables_C: drawing.tables_C }, grid, stopped)
  const readers = readersOf(resolved, course)
  const steps = resolved.rules.map((rule, index) => judgeFollowed(rule, course, readers.worst[index]!).steps.length)
  const moments = momentsOf(course)
  const width =
    2 * resolved.targets.length +
    steps.reduce((sum, count) => sum + count + 1, 0) +
    readers.curves.length * moments.length
  const columns: Columns = {
    targets: resolved.targets.length,
    steps,
    curves: readers.curves.map(({ name }) => name),
    moments,
    width,
  }
  const fill = (one: Course, level: 'low' | 'typical' | 'high') =>
    fillRow(new Float64Array(width), one, level, resolved, readers, columns)
  return {
    resolved,
    inputs,
    draws: draw(runs, inputs.length, seed),
    columns,
    nominal: fill(course, 'typical'),
    row: (drawn, { stopped: asked }) =>
      fill(
        runOnGrid(drawnJob(drawing, drawn), grid, asked === undefined ? {} : { stopped: asked }),
        levelOf(drawing, drawn),
      ),
  }
}

/** What only some of the runs are told with, as where a spread was stopped. */
export function drawsOf({ inputs, draws, columns, nominal }: SpreadDraws, runs: readonly number[]): SpreadDraws {
  return { inputs, columns, nominal, draws: runs.map((run) => draws[run]!) }
}

/**
 * The runs from `from` up to, without, `to`: any division among workers gives the same numbers.
 * @returns Shape: (to − from) × columns.width, row-major
 */
export function computeSamples(task: SpreadTask, from: number, to: number, control: Control = {}): Float64Array {
  const { draws, columns, row } = task
  const rows = new Float64Array((to - from) * columns.width)
  for (let run = from; run < to; run++) {
    if (control.stopped?.() === true) throw new Cancelled()
    rows.set(row(draws[run]!, control), (run - from) * columns.width)
    control.report?.((run - from + 1) / (to - from), 'spread')
  }
  return rows
}
