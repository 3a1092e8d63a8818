import type { Control } from '../control.ts'
import { Cancelled, ComputeError, PlanError } from '../errors.ts'
import { forecast } from '../forecast.ts'
import type { Forecast } from '../forecast-types.ts'
import { findCore } from '../journey/core-place.ts'
import { computeJourney } from '../journey/journey.ts'
import { judgeRule } from '../outcomes/rule-verdict.ts'
import { judgeTarget } from '../outcomes/targets/index.ts'
import { resolvePlan } from '../plan/resolve.ts'
import type { Plan } from '../plan/schema/plan.ts'
import type { TimeBand } from '../words/banded.ts'

/** The one answer of a plan that counts in a search or a comparison. */
export type Question =
  | { readonly of: 'target' /** Place in the plan's targets. */; readonly index: number }
  | { readonly of: 'rule'; readonly rule: string }

/** What a plan answers to a question. */
export interface Outcome {
  readonly met: boolean
  /** Hours since the start at which a target is reached; absent where it isn't, and for rules. */
  readonly at_h?: number
  /** Hours to spare, negative: too late; absent where nothing is counted. */
  readonly margin_h?: number
}

/** An outcome with what the band makes of it. */
export interface SureOutcome extends Outcome {
  /** The late end of the band meets it too, and the early end does. */
  readonly sure: boolean
  readonly possible: boolean
}

const present = (key: 'at_h' | 'margin_h', value: number | undefined): Partial<Outcome> =>
  value === undefined || !Number.isFinite(value) ? {} : { [key]: value }

/** What the likely course answers: the same as the forecast of the plan, without its band. */
export function outcomeOf(plan: Plan, question: Question, control: Control = {}): Outcome {
  const resolved = resolvePlan(plan)
  const { course, coarse } = computeJourney(resolved.job, resolved.fidelity, control)
  if (question.of === 'target') {
    const { answer, at_h, margin_h } = judgeTarget(resolved.targets[question.index]!, course)
    return { met: answer === 'yes', ...present('at_h', at_h), ...present('margin_h', margin_h) }
  }
  const rule = resolved.rules.find(({ id }) => id === question.rule)!
  const { answer, worst } = judgeRule(rule, course, findCore(coarse))
  return { met: answer === 'meets' || answer === 'does not apply', ...present('margin_h', worst.margin_h) }
}

/** A plan that is looked at for a question: by its likely course, or by its forecast. */
export interface Look {
  readonly plan: Plan
  readonly question: Question
  readonly closely: boolean
}

/** What a close look has seen: an answer with its band, and what lies beside it. */
export type Beheld = Pick<Forecast, 'answers' | 'safety' | 'appliances' | 'quantities' | 'danger'>

/** What a look has seen; or why the plan could not be computed to its end. Plain data. */
export type Seen =
  | { readonly kind: 'outcome'; readonly outcome: Outcome }
  | { readonly kind: 'forecast'; readonly forecast: Beheld }
  | { readonly kind: 'failed'; readonly reason: string; readonly stage: string; readonly at_h: number }

/** Looks at a plan. Throws `PlanError`, `Cancelled`. */
export function look({ plan, question, closely }: Look, control: Control = {}): Seen {
  try {
    if (!closely) return { kind: 'outcome', outcome: outcomeOf(plan, question, control) }
    const { answers, safety, appliances, quantities, danger } = forecast(plan, control)
    return { kind: 'forecast', forecast: { answers, safety, appliances, quantities, danger } }
  } catch (error) {
    if (!(error instanceof ComputeError)) throw error
    return { kind: 'failed', reason: error.reason, stage: error.stage, at_h: error.at_h }
  }
}

/** The forecast of a close look, where there is no going on without it. Throws `ComputeError`; `Cancelled` where it was left undone. */
export function beheld(seen: Seen | undefined): Beheld {
  if (seen?.kind === 'forecast') return seen.forecast
  if (seen?.kind === 'failed') throw new ComputeError(seen.reason, seen.stage, seen.at_h)
  throw new Cancelled()
}

/** What a forecast answers, with its band. */
export function outcomeIn({ answers, safety }: Pick<Forecast, 'answers' | 'safety'>, question: Question): SureOutcome {
  if (question.of === 'target') {
    const { answer, at_h, margin_h, by_h, early_h, late_h } = answers[question.index]!
    const met = answer === 'yes'
    const inTime = by_h === undefined || (late_h ?? Number.POSITIVE_INFINITY) <= by_h
    return {
      met,
      sure: met && late_h !== undefined && inTime,
      possible: met || (early_h !== undefined && by_h !== undefined && early_h <= by_h),
      ...present('at_h', at_h),
      ...present('margin_h', margin_h),
    }
  }
  const { answer, worst, steps } = safety.find(({ rule }) => rule === question.rule)!
  const unbound = answer === 'does not apply'
  const early = steps.every(
    ({ early_h, taken_h, within_h }) => (early_h ?? taken_h ?? Number.POSITIVE_INFINITY) <= within_h,
  )
  return {
    met: answer === 'meets' || answer === 'open' || unbound,
    sure: answer === 'meets' || unbound,
    possible: answer === 'meets' || answer === 'open' || unbound || early,
    ...present('margin_h', worst.margin_h),
  }
}

/** Hours to spare at the late end of the band and at the early one; without an asked time, hours sooner than the start. */
export function marginBand(forecast: Pick<Forecast, 'answers' | 'safety'>, question: Question): TimeBand {
  if (question.of === 'target') {
    const { by_h = 0, early_h, late_h } = forecast.answers[question.index]!
    return {
      ...(late_h === undefined ? {} : { early_h: by_h - late_h }),
      ...(early_h === undefined ? {} : { late_h: by_h - early_h }),
    }
  }
  const { steps } = forecast.safety.find(({ rule }) => rule === question.rule)!
  const spare = (used: (step: (typeof steps)[number]) => number | undefined): number | undefined => {
    const left = steps.map((step) => step.within_h - (used(step) ?? step.taken_h ?? Number.NaN))
    return left.some(Number.isNaN) ? undefined : Math.min(...left)
  }
  const [early_h, late_h] = [spare((step) => step.late_h), spare((step) => step.early_h)]
  return { ...(early_h === undefined ? {} : { early_h }), ...(late_h === undefined ? {} : { late_h }) }
}

/**
 * How much more there is of a time after a change, at either end of the band: what is uncertain makes the plan with it and without it early or late
 * alike.
 */
export function changeBand(now: TimeBand, then: TimeBand): TimeBand {
  if (now.early_h === undefined || then.early_h === undefined) return {}
  if (now.late_h === undefined || then.late_h === undefined) return {}
  const ends = [then.early_h - now.early_h, then.late_h - now.late_h].sort((a, b) => a - b)
  return { early_h: ends[0]!, late_h: ends[1]! }
}

/** The question in the words of a caller: a kind of target or its number, or a rule; the plan's first if none is given. */
export function questionOf(plan: Plan, asked: { readonly target?: string; readonly rule?: string }): Question {
  const targets = plan.targets ?? []
  const rules = plan.rules ?? []
  const wrong = (problem: string, remedy: string): PlanError => new PlanError([{ path: 'question', problem, remedy }])
  if (asked.target !== undefined && asked.rule !== undefined)
    throw wrong('asks for a target and for a rule', 'ask for one of them')
  if (asked.rule !== undefined) {
    if (!rules.includes(asked.rule))
      throw wrong(
        `the plan has no rule "${asked.rule}"`,
        rules.length === 0 ? 'add it to the rules of the plan' : `ask for one of ${rules.join(', ')}`,
      )
    return { of: 'rule', rule: asked.rule }
  }
  if (asked.target !== undefined) {
    const index = targets.findIndex(({ kind }, place) => kind === asked.target || String(place) === asked.target)
    if (index < 0)
      throw wrong(
        `the plan has no target "${asked.target}"`,
        targets.length === 0
          ? 'add it to the targets of the plan'
          : `ask for one of ${targets.map(({ kind }) => kind).join(', ')}`,
      )
    return { of: 'target', index }
  }
  if (targets.length > 0) return { of: 'target', index: 0 }
  if (rules[0] !== undefined) return { of: 'rule', rule: rules[0] }
  throw wrong('the plan asks for nothing', 'give it a target or a rule')
}
