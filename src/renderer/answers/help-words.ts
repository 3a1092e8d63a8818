import type { Help, TriedChange } from '../../core/choosing/help.ts'
import type { Question } from '../../core/choosing/question.ts'
import type { SideEffects } from '../../core/choosing/side-effects.ts'
import type { Forecast } from '../../core/forecast-types.ts'
import { findRule } from '../../core/outcomes/rules.ts'
import type { Plan } from '../../core/plan/schema.ts'
import type { Show } from '../../core/words/show.ts'
import { questionOf } from './questions.ts'

/** Less than this is not worth a word. */
const SMALL_H = 0.05
const SMALL_KG = 0.01
/** So many changes are told; the rest buys less. */
const MOST = 6

/** Answers that could be helped, the pressing ones first: what is asked, and the rules that are not met. */
export function openQuestions(forecast: Forecast): Question[] {
  const targets = forecast.answers.filter(({ answer }) => answer !== 'yes')
  const rules = forecast.safety.filter(({ answer }) => answer === 'does not meet' || answer === 'open')
  return [
    ...targets.map(({ index }): Question => ({ of: 'target', index })),
    ...rules.map(({ rule }): Question => ({ of: 'rule', rule })),
  ]
}

/** A question in the words of its answer. */
export function questionTitle(question: Question, plan: Plan, forecast: Forecast, show: Show): string {
  if (question.of === 'rule') return forecast.safety.find(({ rule }) => rule === question.rule)?.title ?? question.rule
  const target = plan.targets?.[question.index]
  return target === undefined ? 'What is asked' : questionOf(target, show)
}

export const questionKey = (question: Question): string =>
  question.of === 'rule' ? `rule ${question.rule}` : `target ${question.index}`

/** What is worth trying, the best first: the best two together, then what buys something by itself. */
export function worthTrying({ ranked, together, now }: Help): readonly TriedChange[] {
  const useful = ranked.filter(
    ({ outcome, gain_h }) => (gain_h !== undefined && gain_h > SMALL_H) || (outcome.met && !now.met),
  )
  return [...useful, ...(together === undefined ? [] : [together])].slice(0, MOST)
}

/** What the change comes to: when it is reached then, and whether the late end keeps it too. */
export function thenWords({ outcome, sure }: TriedChange, show: Show): string {
  const { met, at_h, margin_h } = outcome
  const parts = [
    ...(at_h === undefined ? [] : [`then ${show.moment(at_h)}`]),
    ...(margin_h === undefined
      ? []
      : [`${show.duration(Math.abs(margin_h))} ${margin_h < 0 ? 'too late' : 'to spare'}`]),
    ...(met
      ? [sure === true ? 'at the late end too' : sure === false ? 'not at the late end' : 'met']
      : ['not met yet']),
  ]
  return parts.join(', ')
}

/** A rule by its title; anything else as it is. */
const named = (of: string): string => findRule(of)?.title ?? of

const moreOrLess = (value: number, words: (value: number) => string): string =>
  `${words(Math.abs(value))} ${value < 0 ? 'less' : 'more'}`

/** What else it changes, in a few words each. */
export function elsewhereWords(effects: SideEffects, show: Show): readonly string[] {
  const { answers, ruleMargins, water_kg, danger_h, overloaded, mass_kg } = effects
  return [
    ...answers.map(({ of, before, after }) => `${named(of)}: ${before} becomes ${after}`),
    ...ruleMargins
      .filter(({ margin_h }) => Math.abs(margin_h) > SMALL_H)
      .map(({ rule, margin_h }) => `${named(rule)}: ${moreOrLess(margin_h, show.duration)} to spare`),
    ...(Math.abs(water_kg) > SMALL_KG ? [`${moreOrLess(water_kg, show.mass)} water lost`] : []),
    ...(Math.abs(danger_h) > SMALL_H ? [`${moreOrLess(danger_h, show.duration)} in the danger zone`] : []),
    ...overloaded.map((title) => `overloads ${title}`),
    ...(Math.abs(mass_kg) > SMALL_KG ? [`${moreOrLess(mass_kg, show.mass)} in the piece`] : []),
  ]
}
