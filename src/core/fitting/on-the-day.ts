import type { Control } from '../control.ts'
import { forecast } from '../forecast.ts'
import type { Answer, Forecast } from '../forecast-types.ts'
import { type Message, message } from '../messages.ts'
import type { Plan } from '../plan/schema/plan.ts'
import { bandValues, type TimeBand } from '../words/banded.ts'
import { type FittedPlan, fitPlan } from './fit.ts'
import type { Fit, FitAsk } from './fit-types.ts'
import { forecastFitted } from './posterior.ts'

/** A moment with its band, hours since the start; absent where it is not reached, or a side of it left open. */
export interface DayMoment {
  readonly at_h?: number
  readonly early_h?: number
  readonly late_h?: number
}

/** How one answer stands against what was promised. */
export interface DayAnswer {
  /** Kind of the target, and its place in the plan's targets. */
  readonly target: string
  readonly index: number
  /** `unknown`: nothing measured, or nothing that a plausible piece would show. */
  readonly state: 'ahead' | 'on course' | 'behind' | 'unknown'
  /** Before anything was measured. */
  readonly promised: DayMoment
  /** As the readings have it. */
  readonly now: DayMoment
  /** Hours later than promised, negative: earlier, with the band of the day; absent where either is not reached. */
  readonly later_h?: number
  readonly later_early_h?: number
  readonly later_late_h?: number
  /** Asked moment, and whether it is kept: by the late end of the band, by the likely course alone, or not. */
  readonly by_h?: number
  readonly kept?: 'surely' | 'likely' | 'no'
  /** When it was found met. */
  readonly came_h?: number
  /** How it stands, and what to do. */
  readonly why: Message
  readonly todo: Message
  /** What to do is to change something: `whatHelpsNow` tells what. */
  readonly needsChange: boolean
}

/** A plan on its day: what its readings say, how it goes on, and how that stands against what was promised. */
export interface OnTheDay {
  /** Moment of the last reading, hours since the start; 0 without any. */
  readonly now_h: number
  /** Null without readings. */
  readonly fit: Fit | null
  /** Of the plan as its readings have it, with its narrower bands. */
  readonly forecast: Forecast
  readonly answers: readonly DayAnswer[]
}

/** Moments nearer than this are the same, h; or than this share of half the promised band. */
const SAME_H = 1 / 6
const SAME_SHARE = 0.25

const momentOf = ({ at_h, early_h, late_h }: DayMoment): DayMoment => ({
  ...(at_h === undefined ? {} : { at_h }),
  ...(early_h === undefined ? {} : { early_h }),
  ...(late_h === undefined ? {} : { late_h }),
})

/** What a forecast promises, as a plan keeps it. */
export function promisesOf({ answers }: Pick<Forecast, 'answers'>): NonNullable<Plan['promised']> {
  return answers.map((answer) => ({ target: answer.index, ...momentOf(answer) }))
}

/** The plan with what was promised before the first reading; as it is where that is kept already. */
export function keepPromise(plan: Plan, control: Control = {}): Plan {
  if (plan.promised !== undefined) return plan
  return { ...plan, promised: promisesOf(forecast(plan, control)) }
}

/** The plan with the moment at which a target was found met. */
export function keepArrival(plan: Plan, target: number, at_h: number): Plan {
  const others = (plan.came ?? []).filter((one) => one.target !== target)
  return { ...plan, came: [...others, { target, at_h }].sort((a, b) => a.target - b.target) }
}

/** Hours later than the promised moment, by the band of the day. */
function laterBand({ at_h: promised_h }: DayMoment, { early_h, late_h }: DayMoment): TimeBand {
  if (promised_h === undefined) return {}
  return {
    ...(early_h === undefined ? {} : { early_h: early_h - promised_h }),
    ...(late_h === undefined ? {} : { late_h: late_h - promised_h }),
  }
}

/** The same without its sign: from the least to the most. */
function sizeOf({ early_h, late_h }: TimeBand): TimeBand {
  if (early_h === undefined || late_h === undefined) return {}
  const [least, most] = [Math.abs(early_h), Math.abs(late_h)].sort((a, b) => a - b)
  return { early_h: early_h < 0 && late_h > 0 ? 0 : least!, late_h: most! }
}

function stateOf(promised: DayMoment, now: DayMoment): { state: DayAnswer['state']; why: Message } {
  const [before, after] = [promised.at_h, now.at_h]
  if (after === undefined)
    return before === undefined
      ? { state: 'on course', why: message('day-not-reached') }
      : { state: 'behind', why: message('day-lost') }
  const expected = { at_h: after, ...bandValues('at_h', now) }
  if (before === undefined) return { state: 'ahead', why: message('day-gained', expected) }
  const later = after - before
  const half = ((promised.late_h ?? before) - (promised.early_h ?? before)) / 2
  const by = { by_h: Math.abs(later), ...bandValues('by_h', sizeOf(laterBand(promised, now))) }
  const values = { ...by, ...expected, promised_h: before, ...bandValues('promised_h', promised) }
  if (Math.abs(later) <= Math.max(SAME_H, SAME_SHARE * half))
    return { state: 'on course', why: message('day-on-course', values) }
  return later < 0
    ? { state: 'ahead', why: message('day-ahead', values) }
    : { state: 'behind', why: message('day-behind', values) }
}

function keptOf({ at_h, late_h }: DayMoment, by_h: number | undefined): DayAnswer['kept'] {
  if (by_h === undefined) return undefined
  if (at_h === undefined || at_h > by_h) return 'no'
  return late_h !== undefined && late_h <= by_h ? 'surely' : 'likely'
}

/** What to do about an answer. */
function todoOf(
  { answer, by_h }: Answer,
  state: DayAnswer['state'],
  now: DayMoment,
  kept: DayAnswer['kept'],
  now_h: number,
): Pick<DayAnswer, 'todo' | 'needsChange'> {
  if (kept === 'no' || (by_h === undefined && answer !== 'yes'))
    return { todo: message('day-do-change'), needsChange: true }
  if (kept === 'likely')
    return {
      todo: message('day-do-watch', { act_h: now_h + Math.max(0, ((by_h ?? now_h) - now_h) / 2) }),
      needsChange: true,
    }
  if (state === 'ahead' && now.early_h !== undefined && now.early_h > now_h)
    return { todo: message('day-do-early', { early_h: now.early_h }), needsChange: false }
  return { todo: message('day-do-nothing'), needsChange: false }
}

function answerOf(plan: Plan, answer: Answer, promise: DayMoment, fit: Fit | null, now_h: number): DayAnswer {
  const { target, index, by_h } = answer
  const [promised, now] = [momentOf(promise), momentOf(answer)]
  const kept = keptOf(now, by_h)
  const came_h = plan.came?.find((one) => one.target === index)?.at_h
  const stands =
    fit === null
      ? { state: 'unknown' as const, why: message('day-no-readings') }
      : fit.explained
        ? stateOf(promised, now)
        : { state: 'unknown' as const, why: message('day-unknown') }
  const came =
    came_h === undefined || promised.at_h === undefined
      ? {}
      : { why: message('day-came', { at_h: came_h, by_h: came_h - promised.at_h }) }
  return {
    target,
    index,
    ...stands,
    ...came,
    promised,
    now,
    ...(now.at_h === undefined || promised.at_h === undefined
      ? {}
      : { later_h: now.at_h - promised.at_h, ...bandValues('later_h', laterBand(promised, now)) }),
    ...(by_h === undefined ? {} : { by_h }),
    ...(kept === undefined ? {} : { kept }),
    ...(came_h === undefined
      ? todoOf(answer, stands.state, now, kept, now_h)
      : { came_h, todo: message('day-do-nothing'), needsChange: false }),
  }
}

/**
 * A plan on its day, by the readings that it holds. What was promised is what the plan keeps, else what it forecasts
 * without its readings.
 * Throws: `PlanError`, `ComputeError`, `Cancelled`.
 */
export function onTheDay(plan: Plan, control: Control = {}, ask: FitAsk = {}): OnTheDay {
  const { readings = [] } = plan
  const fitted = readings.length === 0 ? null : fitPlan(plan, readings, ask, part(control, 0, 0.5))
  return dayOf(plan, fitted, part(control, 0.5, 1))
}

const part = (control: Control, from: number, to: number): Control => ({
  ...control,
  report: (share, doing) => control.report?.(from + (to - from) * share, doing),
})

/** A plan on its day by a fit that was made already; null without readings. */
export function dayOf(plan: Plan, fitted: FittedPlan | null, control: Control = {}): OnTheDay {
  const { promised = promisesOf(forecast(plan, part(control, 0, 0.4))) } = plan
  const rest = part(control, 0.4, 1)
  const made = fitted === null ? forecast(plan, rest) : forecastFitted(plan, fitted, rest)
  const now_h = Math.max(0, ...(plan.readings ?? []).map(({ at_h }) => at_h))
  const fit = fitted?.fit ?? null
  return {
    now_h,
    fit,
    forecast: made,
    answers: made.answers.map((answer) =>
      answerOf(plan, answer, promised.find(({ target }) => target === answer.index) ?? {}, fit, now_h),
    ),
  }
}
