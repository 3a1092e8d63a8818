import type { Control } from '../control.ts'
import { ComputeError } from '../errors.ts'
import { doneHere, type InParts } from '../in-parts.ts'
import type { Message } from '../messages.ts'
import { findPlanFaults } from '../plan/read.ts'
import type { Plan } from '../plan/schema/plan.ts'
import { bandValues } from '../words/banded.ts'
import type { Change } from './change.ts'
import { changes as catalogue } from './changes/registry.ts'
import {
  type Beheld,
  beheld,
  changeBand,
  type Look,
  look,
  marginBand,
  type Outcome,
  outcomeIn,
  type Question,
  type Seen,
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
  /** Stopped before everything was tried that would have been. */
  readonly unfinished?: true
}

export interface HelpAsk {
  /** How many of the best are looked at closely; 5 if left out. */
  readonly closely?: number
  readonly changes?: readonly Change[]
}

const CLOSELY = 5
/** Share of the work at which the first look at every change is over; the close one; that at pairs. */
const FIRST_SHARE = 0.6
const CLOSE_SHARE = 0.85
const PAIR_SHARE = 0.95
/** Why a change has no outcome where the work was stopped. */
const UNTRIED = 'stopped before it was tried'
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

/** A plan with changes made to it; or why it can't have them. */
function changed(plan: Plan, made: readonly Change[]): { readonly plan: Plan } | { readonly why: string } {
  let edited: Plan | undefined = plan
  for (const change of made) edited = edited === undefined ? undefined : change.edit(edited)
  if (edited === undefined) return { why: 'the plan has nothing of the kind' }
  const [fault] = findPlanFaults(edited)
  return fault === undefined ? { plan: edited } : { why: `${fault.path}: ${fault.problem}` }
}

/** Changes that were tried, from what was seen of the plan that they make; or why there is nothing. */
function triedFrom(
  made: readonly Change[],
  plan: Plan,
  seen: Seen | undefined,
  now: Outcome,
): TriedChange | { readonly why: string } {
  if (seen === undefined) return { why: UNTRIED }
  if (seen.kind === 'failed') return { why: new ComputeError(seen.reason, seen.stage, seen.at_h).message }
  if (seen.kind !== 'outcome') throw new Error('a change is looked at by its likely course first')
  const { outcome } = seen
  const gain = gainOf(now, outcome)
  return {
    changes: made.map(({ id }) => id),
    titles: made.map(({ title }) => title),
    trouble: made.map(({ trouble }) => trouble),
    plan,
    outcome,
    ...(gain === undefined ? {} : { gain_h: gain }),
  }
}

/** Bands of an outcome's moment, and of what it leaves to spare where a time is asked. */
function bandsIn(forecast: Beheld, question: Question): Help['nowBand'] {
  if (question.of === 'rule') return bandValues('margin_h', marginBand(forecast, question))
  const { early_h, late_h, by_h } = forecast.answers[question.index]!
  return {
    ...(early_h === undefined ? {} : { early_h }),
    ...(late_h === undefined ? {} : { late_h }),
    ...(by_h === undefined ? {} : bandValues('margin_h', marginBand(forecast, question))),
  }
}

/** The same with its band and with what it does elsewhere; as it was where no close look was taken. */
function lookedAt(tried: TriedChange, question: Question, before: Beheld, seen: Seen | undefined): TriedChange {
  if (seen === undefined) return tried
  const after = beheld(seen)
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
export function whatWouldHelp(plan: Plan, question: Question, ask: HelpAsk = {}, control: Control = {}): Help {
  return doneHere(helpInParts(plan, question, ask), look, control)
}

/**
 * The same in parts.
 * @param atOnce  pairs that are tried in a turn, though one may do; what comes out is the same
 */
export function* helpInParts(
  plan: Plan,
  question: Question,
  { closely = CLOSELY, changes = catalogue }: HelpAsk = {},
  atOnce = 1,
): InParts<Look, Seen, Help> {
  const edits = changes.map((change) => ({ change, edit: changed(plan, [change]) }))
  const able = edits.flatMap(({ change, edit }) => ('plan' in edit ? [{ change, plan: edit.plan }] : []))
  const [first, ...firstLooks] = yield {
    parts: [{ plan, question, closely: true }, ...able.map((one) => ({ plan: one.plan, question, closely: false }))],
    doing: `${able.length} changes`,
    from: 0,
    to: FIRST_SHARE,
  }
  const before = beheld(first)
  const now = outcomeIn(before, question)
  const tried = able.map(({ change, plan: edited }, index) => ({
    change,
    made: triedFrom([change], edited, firstLooks[index], now),
  }))
  const left = edits.flatMap(({ change, edit }) => {
    const made = 'why' in edit ? edit : tried.find((one) => one.change === change)!.made
    return 'why' in made ? [{ change: change.id, why: made.why }] : []
  })
  const sorted = tried.flatMap(({ made }) => ('why' in made ? [] : [made])).sort(betterFirst)
  const best = sorted.slice(0, closely)
  const closeLooks = yield {
    parts: best.map((one) => ({ plan: one.plan, question, closely: true })),
    doing: 'the best of them closely',
    from: FIRST_SHARE,
    to: CLOSE_SHARE,
  }
  const ranked = sorted.map((one, index) => lookedAt(one, question, before, closeLooks[index]))
  const helpful = sorted.filter((one) => helps(now, one))
  const pair = yield* bestPair(plan, helpful, changes, question, now, atOnce)
  const [pairLook] =
    pair === undefined
      ? []
      : yield {
          parts: [{ plan: pair.plan, question, closely: true }],
          doing: 'the best two together',
          from: PAIR_SHARE,
          to: 1,
        }
  const unfinished =
    left.some(({ why }) => why === UNTRIED) || [...closeLooks].includes(undefined) || (pair !== undefined && !pairLook)
  return {
    question,
    now,
    nowBand: bandsIn(before, question),
    ranked,
    ...(pair === undefined ? {} : { together: lookedAt(pair, question, before, pairLook) }),
    left,
    ...(unfinished ? { unfinished: true } : {}),
  }
}

/** The best and the next best that goes with it and adds to it. */
function* bestPair(
  plan: Plan,
  sorted: readonly TriedChange[],
  changes: readonly Change[],
  question: Question,
  now: Outcome,
  atOnce: number,
): InParts<Look, Seen, TriedChange | undefined> {
  const [best, ...others] = sorted
  const changeOf = (tried: TriedChange | undefined): Change | undefined =>
    changes.find(({ id }) => id === tried?.changes[0])
  const first = changeOf(best)
  if (best === undefined || first === undefined) return undefined
  const pairs = others.flatMap((other) => {
    const second = changeOf(other)
    const orders = second === undefined ? [] : [[first, second] as const, [second, first] as const]
    return orders.flatMap((made) => {
      const edit = changed(plan, made)
      return 'plan' in edit ? [{ made, plan: edit.plan }] : []
    })
  })
  for (let next = 0; next < pairs.length; next += atOnce) {
    const some = pairs.slice(next, next + atOnce)
    const seen = yield {
      parts: some.map((pair) => ({ plan: pair.plan, question, closely: false })),
      doing: 'two together',
      from: CLOSE_SHARE + ((PAIR_SHARE - CLOSE_SHARE) * next) / pairs.length,
      to: CLOSE_SHARE + ((PAIR_SHARE - CLOSE_SHARE) * Math.min(next + atOnce, pairs.length)) / pairs.length,
    }
    for (const [index, { made, plan: edited }] of some.entries()) {
      const pair = triedFrom(made, edited, seen[index], now)
      if (!('why' in pair) && betterFirst(pair, best) < 0) return pair
      if (seen[index] === undefined) return undefined
    }
  }
  return undefined
}
