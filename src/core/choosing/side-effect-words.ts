import type { Show } from '../words/show.ts'
import type { SideEffects } from './side-effects.ts'

/** Less than this is not worth a word. */
const SMALL_H = 0.05
const SMALL_KG = 0.01

const moreOrLess = (value: number, show: (value: number) => string): string =>
  `${show(Math.abs(value))} ${value < 0 ? 'less' : 'more'}`

/** What a change does elsewhere, each in a few words. */
export function elsewhereWords(
  { answers, ruleMargins, water_kg, danger_h, overloaded, mass_kg }: SideEffects,
  show: Show,
): string[] {
  return [
    ...answers.map(({ of, before, after }) => `${of}: ${before} becomes ${after}`),
    ...ruleMargins
      .filter(({ margin_h }) => Math.abs(margin_h) > SMALL_H)
      .map(({ rule, margin_h }) => `${rule}: ${moreOrLess(margin_h, show.duration)} to spare`),
    ...(Math.abs(water_kg) > SMALL_KG ? [`dries: ${moreOrLess(water_kg, show.mass)} water lost`] : []),
    ...(Math.abs(danger_h) > SMALL_H
      ? [`${moreOrLess(danger_h, show.duration)} between ${show.temperature(5)} and ${show.temperature(60)}`]
      : []),
    ...overloaded.map((title) => `overloads ${title}`),
    ...(Math.abs(mass_kg) > SMALL_KG ? [`${moreOrLess(mass_kg, show.mass)} in the piece`] : []),
  ]
}
