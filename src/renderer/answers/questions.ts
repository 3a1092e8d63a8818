import type { Answer, Forecast, RuleVerdict, Verdict } from '../../core/forecast-types.ts'
import type { PlanTarget } from '../../core/plan/schema/plan.ts'
import type { TimeBand } from '../../core/words/banded.ts'
import type { Show } from '../../core/words/show.ts'
import { spareWords } from '../../core/words/spare.ts'
import { dayAndClock, durationWords, earlyToLate } from '../format-time.ts'
import { questionTitles } from '../text.ts'

/** How an answer is marked: the same four signs for targets and rules. */
export type Mark = 'yes' | 'not yet' | 'no' | 'none'

/** "−12.0 °C" as "−12 °C": what was asked is a round number as a rule. */
const asked = (T_C: number, show: Show): string => show.temperature(T_C).replace(/\.0(?=\s)/, '')

export function questionOf(target: PlanTarget, show: Show): string {
  switch (target.kind) {
    case 'frozen':
      return `Frozen to the core, ${asked(target.core_C, show)}?`
    case 'cooled':
      return `Cooled to ${asked(target.core_C, show)}?`
    case 'baked': {
      const core = asked(target.core_C, show)
      return target.most_C === undefined
        ? `Baked, core at ${core}?`
        : `Baked, core ${core.replace(/\s.*$/, '')} to ${asked(target.most_C, show)}?`
    }
    default:
      return questionTitles[target.kind]
  }
}

export const verdictWords: Readonly<Record<Verdict, string>> = { yes: 'Yes', 'not yet': 'Not yet', no: 'No' }

export const ruleWords: Readonly<Record<RuleVerdict['answer'], string>> = {
  meets: 'Meets it',
  open: 'Open',
  'does not meet': 'Does not meet',
  'not yet': 'Not yet',
  'does not apply': 'Does not apply',
}

export const ruleMarks: Readonly<Record<RuleVerdict['answer'], Mark>> = {
  meets: 'yes',
  open: 'not yet',
  'does not meet': 'no',
  'not yet': 'not yet',
  'does not apply': 'none',
}

export const stepWords: Readonly<Record<RuleVerdict['steps'][number]['outcome'], string>> = {
  pass: 'met',
  fail: 'not met',
  pending: 'not yet over',
  'not-started': 'not begun',
}

/** What the person can do in time comes first: open questions by the time asked, then those that are answered. */
export function byUrgency(answers: readonly Answer[]): readonly Answer[] {
  const rank = (answer: Answer): number => (answer.answer === 'yes' ? 1 : 0)
  const when = (answer: Answer): number => answer.by_h ?? answer.at_h ?? Number.POSITIVE_INFINITY
  return [...answers].sort((a, b) => rank(a) - rank(b) || when(a) - when(b) || a.index - b.index)
}

const presses: Readonly<Record<Mark, number>> = { no: 0, 'not yet': 0, yes: 1, none: 2 }

/** Everything that is told, what may still be helped first; within that, the order stays. */
export const pressingFirst = <T extends { readonly mark: Mark }>(entries: readonly T[]): readonly T[] =>
  entries.toSorted((a, b) => presses[a.mark] - presses[b.mark])

/** Place of an answer among all, as `view.answer` counts: rules go on after the targets. */
export const ruleIndex = (forecast: Forecast, rule: number): number => forecast.answers.length + rule

/** Anchor of an answer in the page. */
export const answerId = (index: number): string => `answer-${index}`

/** The first that is not answered with yes is open from the start. */
export function firstOpen(forecast: Forecast): number | undefined {
  const target = byUrgency(forecast.answers).find((answer) => answer.answer !== 'yes')
  if (target) return target.index
  const rule = forecast.safety.findIndex(
    ({ answer }) => answer === 'does not meet' || answer === 'open' || answer === 'not yet',
  )
  return rule < 0 ? undefined : ruleIndex(forecast, rule)
}

/** "65 h to spare (60 h to 69 h)", "5 h too late (14 h too late to 4 h to spare)". */
export function marginWords(answer: Answer): string | undefined {
  const { at_h, by_h, early_h, late_h } = answer
  if (by_h === undefined || at_h === undefined) return undefined
  const band: TimeBand = {
    ...(late_h === undefined ? {} : { early_h: by_h - late_h }),
    ...(early_h === undefined ? {} : { late_h: by_h - early_h }),
  }
  return spareWords(by_h - at_h, band, { duration: durationWords })
}

export interface Likely {
  /** "Thu 13:40" */
  readonly moment: string
  /** "04:15 to 23:25"; absent where no band is known. */
  readonly band?: string
}

export function likelyWords(answer: Answer, startsAt: string): Likely | undefined {
  const { at_h, early_h, late_h } = answer
  if (at_h === undefined) return undefined
  const moment = dayAndClock(startsAt, at_h)
  if (early_h === undefined) return { moment }
  // A late end beyond the plan is not known: that it is open must be said.
  if (late_h === undefined) return { moment, band: `${dayAndClock(startsAt, early_h)} to after the end of the plan` }
  return { moment, band: earlyToLate(startsAt, at_h, early_h, late_h) }
}
