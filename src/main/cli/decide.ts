import { type Help, type TriedChange, whatWouldHelp } from '../../core/choosing/help.ts'
import { type Outcome, type Question, questionOf } from '../../core/choosing/question.ts'
import type { SideEffects } from '../../core/choosing/side-effects.ts'
import { PLAN_LIMIT, type Plan } from '../../core/plan/schema.ts'
import { metric } from '../../core/words/show.ts'
import { readText } from './input.ts'
import { withMeasured } from './measured.ts'
import { watchProgress } from './progress.ts'
import { readPlan } from './read-plan.ts'
import { textSection } from './text-table.ts'
import { fidelityOf, type Words } from './words.ts'

/** Less than this is not worth a word. */
const SMALL_H = 0.05
const SMALL_KG = 0.01

/** What is asked, from the words of a command; the plan's first target where none is named. */
export function askedBy(plan: Plan, words: Words): Question {
  const [target, rule] = [words.text('target'), words.text('rule')]
  return questionOf(plan, { ...(target === undefined ? {} : { target }), ...(rule === undefined ? {} : { rule }) })
}

/** A question in words. */
export function questionWords(plan: Plan, question: Question): string {
  if (question.of === 'rule') return `rule ${question.rule}`
  const target = plan.targets?.[question.index]
  const core = target !== undefined && 'core_C' in target ? target.core_C : undefined
  const by = target?.by === undefined ? '' : `, by ${target.by.replace('T', ' ')}`
  return `${target?.kind ?? 'target'}${core === undefined ? '' : ` to ${metric.temperature(core)}`}${by}`
}

/** An outcome in words. */
export function outcomeWords({ met, at_h, margin_h }: Outcome): string {
  const when = at_h === undefined ? [] : [metric.moment(at_h)]
  const spare =
    margin_h === undefined ? [] : [`${metric.duration(Math.abs(margin_h))} ${margin_h < 0 ? 'too late' : 'to spare'}`]
  return [met ? 'met' : 'not met', ...when, ...spare].join(', ')
}

const moreOrLess = (value: number, show: (value: number) => string): string =>
  `${show(Math.abs(value))} ${value < 0 ? 'less' : 'more'}`

function elsewhereWords({ answers, ruleMargins, water_kg, danger_h, overloaded, mass_kg }: SideEffects): string[] {
  return [
    ...answers.map(({ of, before, after }) => `${of}: ${before} becomes ${after}`),
    ...ruleMargins
      .filter(({ margin_h }) => Math.abs(margin_h) > SMALL_H)
      .map(({ rule, margin_h }) => `${rule}: ${moreOrLess(margin_h, metric.duration)} to spare`),
    ...(Math.abs(water_kg) > SMALL_KG ? [`dries: ${moreOrLess(water_kg, metric.mass)} water lost`] : []),
    ...(Math.abs(danger_h) > SMALL_H ? [`${moreOrLess(danger_h, metric.duration)} between 5 and 60 °C`] : []),
    ...overloaded.map((title) => `overloads ${title}`),
    ...(Math.abs(mass_kg) > SMALL_KG ? [`${moreOrLess(mass_kg, metric.mass)} in the piece`] : []),
  ]
}

function changeLines({ title, trouble, outcome, gain_h, sure, elsewhere }: TriedChange): string[] {
  const gain = gain_h === undefined ? '' : `${gain_h < 0 ? '−' : '+'}${metric.duration(Math.abs(gain_h))}  `
  const late =
    sure === undefined || !outcome.met
      ? ''
      : sure
        ? '; the late end of the band too'
        : '; not by the late end of the band'
  return [
    `${gain}${title}`,
    `  ${outcomeWords(outcome)}${late}`,
    `  costs: ${trouble.join('; ')}`,
    ...(elsewhere === undefined ? [] : elsewhereWords(elsewhere).map((line) => `  ${line}`)),
  ]
}

/** Whether a change makes a difference that is worth a line of its own. */
const matters = ({ gain_h, outcome }: TriedChange, now: Outcome): boolean =>
  gain_h === undefined ? outcome.met !== now.met : Math.abs(gain_h) > SMALL_H

function tellHelp(plan: Plan, { question, now, ranked, together, left }: Help): string {
  const idle = ranked.filter((tried) => !matters(tried, now))
  const reasons = [...new Set(left.map(({ why }) => why))]
  return [
    `${plan.title}\n${questionWords(plan, question)}: ${outcomeWords(now)}${now.met && !now.sure ? ', not by the late end of the band' : ''}\n`,
    textSection(
      'What each change buys, the best first',
      ranked.filter((tried) => matters(tried, now)).flatMap(changeLines),
    ),
    together === undefined ? '' : textSection('The best two that go together', changeLines(together)),
    textSection(
      'Make no difference to it',
      idle.map(({ title }) => title),
    ),
    textSection(
      'Not tried',
      reasons.map(
        (reason) =>
          `${reason}: ${left
            .filter(({ why }) => why === reason)
            .map(({ change }) => change)
            .join(', ')}`,
      ),
    ),
  ].join('')
}

/** `thickset decide PLAN`. */
export async function carryDecide(words: Words): Promise<number> {
  const fidelity = fidelityOf(words)
  const given = await withMeasured(
    readPlan(await readText(words.operands[0] ?? '-', PLAN_LIMIT)),
    words.text('measured'),
  )
  const plan = fidelity === undefined ? given : { ...given, fidelity }
  const question = askedBy(plan, words)
  const progress = watchProgress(words.has('progress'))
  const help = whatWouldHelp(plan, question, {}, progress)
  progress.done()
  process.stdout.write(
    words.has('json')
      ? `${JSON.stringify({ format: 'thickset-decision', version: 1, title: plan.title, ...help })}\n`
      : tellHelp(plan, help),
  )
  return 0
}
