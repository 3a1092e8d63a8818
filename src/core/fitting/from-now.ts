import type { Change } from '../choosing/change.ts'
import { changes as catalogue } from '../choosing/changes/registry.ts'
import { type Help, type TriedChange, whatWouldHelp } from '../choosing/help.ts'
import type { Question } from '../choosing/question.ts'
import type { Control } from '../control.ts'
import { PlanError } from '../errors.ts'
import type { Plan, PlanCourse, PlanStage, PlanSurroundings } from '../plan/schema/plan.ts'
import { unrolled } from '../plan/unrolled.ts'
import { type FittedPlan, fitPlan } from './fit.ts'
import type { FitAsk } from './fit-types.ts'
import { planAsFitted } from './fitted-plan.ts'
import { forecastFitted } from './posterior.ts'

/* A plan divided at a moment: what has been lived through stays, what lies ahead may still be changed. */

/** A plan divided at a moment, with the number of its stages that are over then. */
export interface Divided {
  readonly plan: Plan
  readonly over: number
}

/** A stage that is over within less is not divided, h. */
const LEAST_H = 1 / 60

/** A course from some hours of the stage on. */
function courseFrom(course: PlanCourse, gone_h: number): PlanCourse {
  if (typeof course === 'number') return course
  const next = course.findIndex(([hour]) => hour > gone_h)
  if (next < 0) return course.at(-1)![1]
  const after = course.slice(next).map(([hour, T_C]): [number, number] => [hour - gone_h, T_C])
  const [a, b] = [course[next - 1], course[next]!]
  if (a === undefined) return after
  return [[0, a[1] + ((b[1] - a[1]) * (gone_h - a[0])) / (b[0] - a[0])], ...after]
}

/** Surroundings from some hours of the stage on; an appliance goes on as it is. */
function surroundingsFrom(given: PlanSurroundings, gone_h: number): PlanSurroundings {
  const { appliance } = given
  const courses = (['air_C', 'walls_C', 'surface_C'] as const).flatMap((key) => {
    const course = given[key]
    return course === undefined ? [] : [[key, courseFrom(course, gone_h)] as const]
  })
  if (typeof appliance !== 'object') return { ...given, ...Object.fromEntries(courses) }
  const { start_C: _, door, ...rest } = appliance
  const later = door?.filter(({ at_h }) => at_h >= gone_h).map((one) => ({ ...one, at_h: one.at_h - gone_h }))
  return {
    ...given,
    ...Object.fromEntries(courses),
    appliance: { ...rest, ...(later === undefined ? {} : { door: later }) },
  }
}

/** What is left of a stage after some hours; nothing is done at its start any more. */
function stageFrom({ start: _, ...stage }: PlanStage, gone_h: number): PlanStage {
  const { after_h, max_h } = stage.until
  return {
    ...stage,
    name: `${stage.name}, from now on`,
    in: typeof stage.in === 'string' ? stage.in : surroundingsFrom(stage.in, gone_h),
    until: {
      ...stage.until,
      ...(after_h === undefined ? {} : { after_h: after_h - gone_h }),
      ...(max_h === undefined ? {} : { max_h: max_h - gone_h }),
    },
  }
}

/**
 * A plan divided at a moment; repeated stages are written out.
 * @param spans  of its stages as they went, h
 */
export function dividedAt(
  plan: Plan,
  now_h: number,
  spans: readonly { readonly from_h: number; readonly to_h: number }[],
): Divided {
  const stages = unrolled(plan.stages).map(({ stage: { repeat: _, ...stage } }) => stage)
  const running = spans.findIndex(({ to_h }) => to_h > now_h + LEAST_H)
  if (running < 0) return { plan: { ...plan, stages }, over: stages.length }
  const gone_h = now_h - spans[running]!.from_h
  if (gone_h < LEAST_H) return { plan: { ...plan, stages }, over: running }
  const stage = stages[running]!
  const gone = { ...stage, until: { after_h: gone_h } }
  return { plan: { ...plan, stages: stages.toSpliced(running, 1, gone, stageFrom(stage, gone_h)) }, over: running + 1 }
}

/** A change that leaves alone what is over: it sees only the stages ahead, and may touch nothing else. */
export function ahead(change: Change, over: number): Change {
  return {
    ...change,
    edit: (plan) => {
      const rest = plan.stages.slice(over)
      if (rest.length === 0) return undefined
      const edited = change.edit({ ...plan, stages: rest })
      if (edited === undefined || edited.startsAt !== plan.startsAt) return undefined
      if (JSON.stringify(edited.piece) !== JSON.stringify(plan.piece)) return undefined
      return { ...edited, stages: [...plan.stages.slice(0, over), ...edited.stages] }
    },
  }
}

/** What would help from the last reading on, as a question that may be answered elsewhere. */
export interface NowAsk {
  /** The plan from now on, as its readings have it, and what may be changed of it. */
  readonly plan: Plan
  readonly changes: readonly Change[]
  /** What came of it, with the plans that are kept: they go on being fitted to their readings, so nothing of those is written in. */
  readonly told: (help: Help) => Help
}

/** Throws: `PlanError` where the readings fit no plausible piece, `ComputeError`, `Cancelled`. */
export function askFromNow(plan: Plan, fitted: FittedPlan, control: Control = {}): NowAsk {
  const { readings = [] } = plan
  if (!fitted.fit.explained)
    throw new PlanError([
      { path: 'readings', problem: 'fit no plausible piece', remedy: 'look for the cause, and measure again' },
    ])
  const { stages } = forecastFitted(plan, fitted, control)
  const now_h = Math.max(...readings.map(({ at_h }) => at_h))
  const divided = dividedAt(planAsFitted(plan, fitted), now_h, stages)
  const changes = catalogue.map((change) => ahead(change, divided.over))
  const before = dividedAt(plan, now_h, stages).plan
  const kept = (tried: TriedChange): TriedChange => {
    const keep = tried.changes.reduce<Plan | undefined>(
      (edited, id) => edited && changes.find((change) => change.id === id)?.edit(edited),
      before,
    )
    return keep === undefined ? tried : { ...tried, keep }
  }
  const told = (help: Help): Help => ({
    ...help,
    ranked: help.ranked.map(kept),
    ...(help.together === undefined ? {} : { together: kept(help.together) }),
  })
  return { plan: divided.plan, changes, told }
}

/**
 * What would help from the last reading on, for the piece as its readings have it.
 * Throws: `PlanError` where the plan holds no readings or they fit no plausible piece, `ComputeError`, `Cancelled`.
 */
export function whatHelpsNow(plan: Plan, question: Question, control: Control = {}, ask: FitAsk = {}): Help {
  const stopped: Control = control.stopped === undefined ? {} : { stopped: control.stopped }
  const fitted = fitPlan(plan, plan.readings ?? [], ask, stopped)
  const now = askFromNow(plan, fitted, stopped)
  return now.told(whatWouldHelp(now.plan, question, { changes: now.changes }, control))
}
