import type { Control } from '../control.ts'
import { ComputeError } from '../errors.ts'
import { forecast } from '../forecast.ts'
import type { Forecast } from '../forecast-types.ts'
import type { Message } from '../messages.ts'
import { findPlanFaults } from '../plan/read.ts'
import type { Plan } from '../plan/schema.ts'
import { bandValues } from '../words/banded.ts'
import type { Change } from './change.ts'
import { changes as catalogue } from './changes/registry.ts'
import {
  changeBand,
  marginBand,
  type Outcome,
  outcomeIn,
  outcomeOf,
  type Question,
  type SureOutcome,
} from './question.ts'
import { type SideEffects, sideEffects } from './side-effects.ts'

/** A change that was tried, with the plan that it makes: forecasting that plan gives the same. */
export interface TriedChange {
  /** Ids of the changes: one, or two together. */
  readonly changes: readonly string[]
  /** What is done and what it asks of the workshop. Shape of both: changes */
  readonly titles: readonly Message[]
  readonly trouble: readonly Message[]
  readonly plan: Plan
  readonly outcome: Outcome
  /** Hours that it buys on what is asked, negative: costs; absent where either has no such number. */
  readonly gain_h?: number
  /**
   * Of the best: the band of its moment, of what it buys and of what it leaves to spare, whether the late end meets it
   * too, and what it does elsewhere.
   */
  readonly early_h?: number
  readonly late_h?: number
  readonly gain_early_h?: number
  readonly gain_late_h?: number
  readonly margin_early_h?: number
  readonly margin_late_h?: number
  readonly sure?: boolean
  readonly elsewhere?: SideEffects
  /** On the day: the plan to keep, with its readings and without what they say written into it. */
  readonly keep?: Plan
}

/** What would help, the best first. */
export interface Help {
  readonly question: Question
  readonly now: SureOutcome
  /** Bands of its times. */
  readonly nowBand: Pick<TriedChange, 'early_h' | 'late_h' | 'margin_early_h' | 'margin_late_h'>
  readonly ranked: readonly TriedChange[]
  /** The best two that go together. */
  readonly together?: TriedChange
  /** Changes for which the plan has no place, or that make no plan of it. */
  readonly left: readonly { readonly change: string; readonly why: string }[]
}

export interface HelpAsk {
  /** How many of the best are looked at closely; 5 if left out. */
  readonly closely?: number
  readonly changes?: readonly Change[]
}

const CLOSELY = 5
/** Share of the work that the first look at every change takes. */
const FIRST_SHARE = 0.6
/** A change that buys less than a minute buys nothing. */
const WORTH_H = 1 / 60

/** Hours that one outcome is better than another, from what both have. */
function gainOf(now: Outcome, then: Outcome): number | undefined {
  if (now.margin_h !== undefined && then.margin_h !== undefined) return then.margin_h - now.margin_h
  if (now.at_h !== undefined && then.at_h !== undefined) return now.at_h - then.at_h
  return undefined
}

/** Met comes first, then what has the most hours to spare, then what is soonest. */
export function betterFirst(one: TriedChange, other: TriedChange): number {
  if (one.outcome.met !== other.outcome.met) return one.outcome.met ? -1 : 1
  const reached = (tried: TriedChange): number =>
    tried.outcome.margin_h ?? (tried.outcome.at_h === undefined ? Number.NEGATIVE_INFINITY : -tried.outcome.at_h)
  const [a, b] = [reached(one), reached(other)]
  return a === b ? 0 : b - a
}

/** One or two changes to a plan, tried; or why they can't be. */
function tryChanges(
  plan: Plan,
  made: readonly Change[],
  question: Question,
  now: Outcome,
  control: Control,
): TriedChange | { readonly why: string } {
  let edited: Plan | undefined = plan
  for (const change of made) edited = edited === undefined ? undefined : change.edit(edited)
  if (edited === undefined) return { why: 'the plan has nothing of the kind' }
  const [fault] = findPlanFaults(edited)
  if (fault !== undefined) return { why: `${fault.path}: ${fault.problem}` }
  try {
    const outcome = outcomeOf(edited, question, control)
    const gain = gainOf(now, outcome)
    return {
      changes: made.map(({ id }) => id),
      titles: made.map(({ title }) => title),
      trouble: made.map(({ trouble }) => trouble),
      plan: edited,
      outcome,
      ...(gain === undefined ? {} : { gain_h: gain }),
    }
  } catch (error) {
    if (!(error instanceof ComputeError)) throw error
    return { why: error.message }
  }
}

/** Bands of an outcome's moment, and of what it leaves to spare where a time is asked. */
function bandsIn(forecast: Forecast, question: Question): Help['nowBand'] {
  if (question.of === 'rule') return bandValues('margin_h', marginBand(forecast, question))
  const { early_h, late_h, by_h } = forecast.answers[question.index]!
  return {
    ...(early_h === undefined ? {} : { early_h }),
    ...(late_h === undefined ? {} : { late_h }),
    ...(by_h === undefined ? {} : bandValues('margin_h', marginBand(forecast, question))),
  }
}

/** The same with its band and with what it does elsewhere. */
function lookClosely(tried: TriedChange, question: Question, before: Forecast, control: Control): TriedChange {
  const after = forecast(tried.plan, control)
  const [then, now] = [marginBand(after, question), marginBand(before, question)]
  return {
    ...tried,
    ...bandsIn(after, question),
    ...(tried.gain_h === undefined ? {} : bandValues('gain_h', changeBand(now, then))),
    sure: outcomeIn(after, question).sure,
    elsewhere: sideEffects(question, before, after),
  }
}

const helps = (now: Outcome, { outcome, gain_h }: TriedChange): boolean =>
  gain_h === undefined ? outcome.met || (now.at_h === undefined && outcome.at_h !== undefined) : gain_h > WORTH_H

/**
 * Tries every change of the catalogue on a plan, each with a computation of its own, and ranks them by what they buy on
 * the asked answer; the best two also together. Throws `ComputeError` for the plan as it is, `Cancelled`.
 */
export function whatWouldHelp(
  plan: Plan,
  question: Question,
  { closely = CLOSELY, changes = catalogue }: HelpAsk = {},
  control: Control = {},
): Help {
  const quiet: Control = control.stopped === undefined ? {} : { stopped: control.stopped }
  const before = forecast(plan, quiet)
  const now = outcomeIn(before, question)
  const left: { change: string; why: string }[] = []
  const tried = changes.flatMap((change, index): TriedChange[] => {
    control.report?.((FIRST_SHARE * index) / changes.length, `change ${index + 1} of ${changes.length}`)
    const result = tryChanges(plan, [change], question, now, quiet)
    if (!('why' in result)) return [result]
    left.push({ change: change.id, why: result.why })
    return []
  })
  const sorted = tried.sort(betterFirst)
  const ranked = sorted.map((one, index) => {
    if (index >= closely) return one
    control.report?.(FIRST_SHARE + ((1 - FIRST_SHARE) * index) / (closely + 1), 'the best of them closely')
    return lookClosely(one, question, before, quiet)
  })
  const pair = bestPair(
    plan,
    sorted.filter((one) => helps(now, one)),
    changes,
    question,
    now,
    quiet,
  )
  return {
    question,
    now,
    nowBand: bandsIn(before, question),
    ranked,
    ...(pair === undefined ? {} : { together: lookClosely(pair, question, before, quiet) }),
    left,
  }
}

/** The best and the next best that goes with it and adds to it. */
function bestPair(
  plan: Plan,
  sorted: readonly TriedChange[],
  changes: readonly Change[],
  question: Question,
  now: Outcome,
  control: Control,
): TriedChange | undefined {
  const [best, ...others] = sorted
  const changeOf = (tried: TriedChange): Change | undefined => changes.find(({ id }) => id === tried.changes[0])
  const first = best === undefined ? undefined : changeOf(best)
  if (best === undefined || first === undefined) return undefined
  for (const other of others) {
    const second = changeOf(other)
    if (second === undefined) continue
    for (const order of [
      [first, second],
      [second, first],
    ]) {
      const pair = tryChanges(plan, order, question, now, control)
      if (!('why' in pair) && betterFirst(pair, best) < 0) return pair
    }
  }
  return undefined
}
