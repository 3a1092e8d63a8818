import type { TimeBand } from '../words/banded.ts'
import type { Show } from '../words/show.ts'
import type { SideEffects } from './side-effects.ts'

/** Less than this is not worth a word. */
const SMALL_H = 0.05
const SMALL_KG = 0.01

const moreOrLess = (value: number, show: (value: number) => string): string =>
  `${show(Math.abs(value))} ${value < 0 ? 'less' : 'more'}`

/** "2 h more (1 h to 3 h)"; where the band holds both, "2 h more (1 h less to 3 h more)". */
export function hoursMoreOrLess(value: number, { early_h, late_h }: TimeBand, show: Show): string {
  const said = moreOrLess(value, show.duration)
  if (early_h === undefined || late_h === undefined) return said
  const one = (h: number): string =>
    early_h < 0 && late_h > 0 ? moreOrLess(h, show.duration) : show.duration(Math.abs(h))
  const [from, to] = value < 0 && late_h <= 0 ? [late_h, early_h] : [early_h, late_h]
  return one(from) === one(to) && one(from) === show.duration(Math.abs(value))
    ? said
    : `${said} (${one(from)} to ${one(to)})`
}

/** What a change does elsewhere, each in a few words. */
export function elsewhereWords(
  { answers, ruleMargins, water_kg, danger_h, danger_early_h, danger_late_h, overloaded, mass_kg }: SideEffects,
  show: Show,
): string[] {
  const dangerBand = {
    ...(danger_early_h === undefined ? {} : { early_h: danger_early_h }),
    ...(danger_late_h === undefined ? {} : { late_h: danger_late_h }),
  }
  return [
    ...answers.map(({ of, before, after }) => `${of}: ${before} becomes ${after}`),
    ...ruleMargins
      .filter(({ margin_h }) => Math.abs(margin_h) > SMALL_H)
      .map(({ rule, margin_h, ...band }) => `${rule}: ${hoursMoreOrLess(margin_h, band, show)} to spare`),
    ...(Math.abs(water_kg) > SMALL_KG ? [`dries: ${moreOrLess(water_kg, show.mass)} water lost`] : []),
    ...(Math.abs(danger_h) > SMALL_H
      ? [`${hoursMoreOrLess(danger_h, dangerBand, show)} between ${show.temperature(5)} and ${show.temperature(60)}`]
      : []),
    ...overloaded.map((title) => `overloads ${title}`),
    ...(Math.abs(mass_kg) > SMALL_KG ? [`${moreOrLess(mass_kg, show.mass)} in the piece`] : []),
  ]
}
