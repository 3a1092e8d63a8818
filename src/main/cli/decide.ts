import { type Help, type TriedChange, whatWouldHelp } from '../../core/choosing/help.ts'
import { type Outcome, type Question, questionOf } from '../../core/choosing/question.ts'
import { elsewhereWords } from '../../core/choosing/side-effect-words.ts'
import type { Message } from '../../core/messages.ts'
import type { Plan } from '../../core/plan/schema.ts'
import { say } from '../../core/words/sentences.ts'
import { metric } from '../../core/words/show.ts'
import { askedPlan } from './asked-plan.ts'
import { watchProgress } from './progress.ts'
import { textSection } from './text-table.ts'
import type { Words } from './words.ts'

/** Less than this is not worth a word. */
const SMALL_H = 0.05

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

const words = (said: Message): string => say(said, metric)
const titleWords = (titles: readonly Message[]): string => titles.map(words).join(', and ')

/** A tried change with its sentences made. */
const saidChange = ({ titles, trouble, ...rest }: TriedChange) => ({
  ...rest,
  title: titleWords(titles),
  trouble: trouble.map(words),
})

function changeLines({ titles, trouble, outcome, gain_h, sure, elsewhere }: TriedChange): string[] {
  const gain = gain_h === undefined ? '' : `${gain_h < 0 ? '−' : '+'}${metric.duration(Math.abs(gain_h))}  `
  const late =
    sure === undefined || !outcome.met
      ? ''
      : sure
        ? '; the late end of the band too'
        : '; not by the late end of the band'
  return [
    `${gain}${titleWords(titles)}`,
    `  ${outcomeWords(outcome)}${late}`,
    `  costs: ${trouble.map(words).join('; ')}`,
    ...(elsewhere === undefined ? [] : elsewhereWords(elsewhere, metric).map((line) => `  ${line}`)),
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
      idle.map(({ titles }) => titleWords(titles)),
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

const saidHelp = ({ ranked, together, ...rest }: Help) => ({
  ...rest,
  ranked: ranked.map(saidChange),
  ...(together === undefined ? {} : { together: saidChange(together) }),
})

/** `thickset decide PLAN`. */
export async function carryDecide(asked: Words): Promise<number> {
  const plan = await askedPlan(asked)
  const question = askedBy(plan, asked)
  const progress = watchProgress(asked.has('progress'))
  const help = whatWouldHelp(plan, question, {}, progress)
  progress.done()
  process.stdout.write(
    asked.has('json')
      ? `${JSON.stringify({ format: 'thickset-decision', version: 1, title: plan.title, ...saidHelp(help) })}\n`
      : tellHelp(plan, help),
  )
  return 0
}
