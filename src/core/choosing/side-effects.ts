import { bandValues, type TimeBand } from '../words/banded.ts'
import { type Beheld, changeBand, marginBand, type Question } from './question.ts'

/** What a change does to everything that wasn't asked. */
export interface SideEffects {
  /** Other targets and rules whose answer changes. */
  readonly answers: readonly { readonly of: string; readonly before: string; readonly after: string }[]
  /** Hours by which the tightest margin of each rule changes; negative: less to spare. */
  readonly ruleMargins: readonly (TimeBand & { readonly rule: string; readonly margin_h: number })[]
  /** More water given off by open faces and by baking, kg; negative: less. */
  readonly water_kg: number
  /** Longest hours between 5 and 60 °C, more or less. */
  readonly danger_h: number
  readonly danger_early_h?: number
  readonly danger_late_h?: number
  /** Appliances that are overloaded now and weren't, by stage. */
  readonly overloaded: readonly string[]
  /** Less mass in all, kg; what is left out has to go elsewhere. */
  readonly mass_kg: number
}

const waterOf = ({ quantities }: Beheld): number =>
  (quantities.evaporated_kg ?? 0) + (quantities.baked?.water_lost_kg ?? 0)

const overloadedIn = ({ appliances }: Beheld): string[] =>
  appliances.filter(({ answer }) => answer === 'is overloaded').map(({ title }) => title)

const dangerBand = ({ danger: { longest_h, longest_early_h, longest_late_h } }: Beheld): TimeBand => ({
  early_h: longest_early_h ?? longest_h,
  late_h: longest_late_h ?? longest_h,
})

const marginOf = (forecast: Beheld, rule: string): TimeBand => marginBand(forecast, { of: 'rule', rule })

/** What differs between the forecasts of a plan before and after a change, the asked answer left out. */
export function sideEffects(question: Question, before: Beheld, after: Beheld): SideEffects {
  const answers = before.answers.flatMap((answer, index) => {
    const then = after.answers[index]
    const asked = question.of === 'target' && question.index === index
    if (asked || then === undefined || then.answer === answer.answer) return []
    return [{ of: answer.target, before: answer.answer as string, after: then.answer as string }]
  })
  const rules = before.safety.flatMap((verdict) => {
    const then = after.safety.find(({ rule }) => rule === verdict.rule)
    const asked = question.of === 'rule' && question.rule === verdict.rule
    return asked || then === undefined ? [] : [{ verdict, then }]
  })
  const known = new Set(overloadedIn(before))
  return {
    answers: [
      ...answers,
      ...rules
        .filter(({ verdict, then }) => verdict.answer !== then.answer)
        .map(({ verdict, then }) => ({ of: verdict.rule, before: verdict.answer, after: then.answer })),
    ],
    ruleMargins: rules.flatMap(({ verdict, then }) => {
      const [one, other] = [verdict.worst.margin_h, then.worst.margin_h]
      return one === undefined || other === undefined
        ? []
        : [
            {
              rule: verdict.rule,
              margin_h: other - one,
              ...changeBand(marginOf(before, verdict.rule), marginOf(after, verdict.rule)),
            },
          ]
    }),
    water_kg: waterOf(after) - waterOf(before),
    danger_h: after.danger.longest_h - before.danger.longest_h,
    ...bandValues('danger_h', changeBand(dangerBand(before), dangerBand(after))),
    overloaded: overloadedIn(after).filter((title) => !known.has(title)),
    mass_kg: after.quantities.mass_kg - before.quantities.mass_kg,
  }
}
