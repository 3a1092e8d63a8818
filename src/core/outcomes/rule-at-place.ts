import type { RuleVerdict } from '../forecast-types.ts'
import { type Basis, type History, judgePlace, type RuleOutcome, type StepResult } from './cooling-rule.ts'
import {
  type Inside,
  type InsideOutcome,
  judgeBands,
  judgeHold,
  judgeZone,
  type ZoneConditions,
} from './inside-rules.ts'
import type { Rule, StagedRule } from './rules.ts'

export type StepAtPlace = Omit<RuleVerdict['steps'][number], 'early_h' | 'late_h'>

/** One place judged by one rule, of whatever kind. */
export interface RuleAtPlace {
  readonly outcome: RuleOutcome
  /** Smallest of allowed minus used hours; infinite where nothing is counted. */
  readonly margin_h: number
  readonly steps: readonly StepAtPlace[]
  /** How the clock was set; absent for rules without one. */
  readonly basis?: Basis
  readonly reheated: boolean
  /** What the rule says is to be done. */
  readonly words?: string
}

/** Temperature from which a step's hours count. */
function fromOf({ start_C, steps }: StagedRule, index: number): number {
  return steps[index]!.clock === 'step' && index > 0 ? steps[index - 1]!.to_C : start_C
}

function stagedStep(rule: StagedRule, index: number, result: StepResult | undefined): StepAtPlace {
  const { to_C, within_h } = rule.steps[index]!
  const outcome = result === undefined || result.outcome === 'blocked' ? 'not-started' : result.outcome
  return {
    from_C: fromOf(rule, index),
    to_C,
    within_h,
    counts: 'fall',
    outcome,
    ...(result?.elapsed_h === undefined ? {} : { taken_h: result.elapsed_h }),
    ...(result?.atLeast_h === undefined ? {} : { at_least_h: result.atLeast_h }),
  }
}

function stagedAt(rule: StagedRule, history: History): RuleAtPlace {
  const { outcome, margin_h, worst } = judgePlace(rule, history)
  return {
    outcome,
    margin_h,
    steps: rule.steps.map((_, index) => stagedStep(rule, index, worst?.steps[index])),
    ...(worst === undefined ? {} : { basis: worst.basis }),
    reheated: worst?.reheated ?? false,
  }
}

function insideStep({ from_C, to_C, within_h, outcome, inside_h }: Inside): StepAtPlace {
  const used = outcome === 'pending' ? { at_least_h: inside_h } : outcome === 'not-started' ? {} : { taken_h: inside_h }
  return { from_C, to_C, within_h, counts: 'inside', outcome, ...used }
}

function insideAt({ outcome, margin_h, parts, words, partial }: InsideOutcome): RuleAtPlace {
  return {
    outcome,
    margin_h,
    steps: parts.map(insideStep),
    ...(partial ? { basis: 'partial' as const } : {}),
    reheated: false,
    ...(words === undefined ? {} : { words }),
  }
}

function judgeInside(rule: Exclude<Rule, StagedRule>, history: History, conditions: ZoneConditions): InsideOutcome {
  switch (rule.kind) {
    case 'bands':
      return judgeBands(rule, history)
    case 'zone':
      return judgeZone(rule, history, conditions)
    case 'hold':
      return judgeHold(rule, history)
  }
}

/** Judges the history of one place by any published rule. */
export const judgeRuleAt = (rule: Rule, history: History, conditions: ZoneConditions = {}): RuleAtPlace =>
  rule.kind === 'staged' ? stagedAt(rule, history) : insideAt(judgeInside(rule, history, conditions))

/** The same without its steps in words: all that is needed to tell which place does worst. */
export const outcomeAt = (
  rule: Rule,
  history: History,
  conditions: ZoneConditions = {},
): Pick<RuleAtPlace, 'outcome' | 'margin_h'> =>
  rule.kind === 'staged' ? judgePlace(rule, history) : judgeInside(rule, history, conditions)
