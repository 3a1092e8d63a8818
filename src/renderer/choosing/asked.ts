import type { Question } from '../../core/choosing/question.ts'
import { findRule } from '../../core/outcomes/rules.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import type { Show } from '../../core/words/show.ts'
import { questionOf } from '../answers/questions.ts'
import type { Choice as Option } from '../catalog.ts'

/** What a choice of questions holds: targets by their place, rules by their name. */
export interface Asked extends Option {
  readonly question: Question
}

/** Everything that a plan asks, targets first. */
export function askedOf(plan: Plan, show: Show): Asked[] {
  return [
    ...(plan.targets ?? []).map(
      (target, index): Asked => ({
        id: `target ${index}`,
        title: questionOf(target, show),
        question: { of: 'target', index },
      }),
    ),
    ...(plan.rules ?? []).map(
      (rule): Asked => ({ id: `rule ${rule}`, title: findRule(rule)?.title ?? rule, question: { of: 'rule', rule } }),
    ),
  ]
}
