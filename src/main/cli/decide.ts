import { type Help, helpInParts, type TriedChange } from '../../core/choosing/help.ts'
import { type Outcome, type Question, questionOf } from '../../core/choosing/question.ts'
import { elsewhereWords, hoursMoreOrLess } from '../../core/choosing/side-effect-words.ts'
import type { Message } from '../../core/messages.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { bandedWords, type TimeBand } from '../../core/words/banded.ts'
import { say } from '../../core/words/sentences.ts'
import { metric } from '../../core/words/show.ts'
import { spareWords } from '../../core/words/spare.ts'
import { doneOnThreads } from '../pool/pool.ts'
import { askedPlan, planWordsOf } from './asked-plan.ts'
import { DONE, UNFINISHED } from './exit-codes.ts'
import { untilInterrupted } from './interrupt.ts'
import { jobsOf } from './jobs.ts'
import { watchProgress } from './progress.ts'
import { textSection } from './text-table.ts'
import { collectFaults, type Words } from './words.ts'

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

/** Bands of an outcome's times. */
export type OutcomeBand = Pick<TriedChange, 'early_h' | 'late_h' | 'margin_early_h' | 'margin_late_h'>

/** An outcome in words; its times only with their bands. */
export function outcomeWords({ met, at_h, margin_h }: Outcome, band: OutcomeBand = {}): string {
  const { early_h, late_h, margin_early_h, margin_late_h } = band
  const edges: TimeBand = {
    ...(early_h === undefined ? {} : { early_h }),
    ...(late_h === undefined ? {} : { late_h }),
  }
  const spare: TimeBand = {
    ...(margin_early_h === undefined ? {} : { early_h: margin_early_h }),
    ...(margin_late_h === undefined ? {} : { late_h: margin_late_h }),
  }
  return [
    met ? 'met' : 'not met',
    ...(at_h === undefined || early_h === undefined ? [] : [bandedWords(metric.moment, at_h, edges, 'later')]),
    ...(margin_h === undefined || margin_late_h === undefined ? [] : [spareWords(margin_h, spare, metric)]),
  ].join(', ')
}

const words = (said: Message): string => say(said, metric)
const titleWords = (titles: readonly Message[]): string => titles.map(words).join(', and ')

/** A tried change with its sentences made. */
const saidChange = ({ titles, trouble, ...rest }: TriedChange) => ({
  ...rest,
  title: titleWords(titles),
  trouble: trouble.map(words),
})

/** What it buys, with its band; of what was not looked at closely no time is told. */
function gainWords({ gain_h, gain_early_h, gain_late_h }: TriedChange): string {
  if (gain_h === undefined) return ''
  if (gain_early_h === undefined || gain_late_h === undefined) return gain_h < 0 ? 'worse: ' : 'some: '
  return `${hoursMoreOrLess(gain_h, { early_h: gain_early_h, late_h: gain_late_h }, metric)}  `
}

function changeLines(tried: TriedChange): string[] {
  const { titles, trouble, outcome, sure, elsewhere } = tried
  const late =
    sure === undefined || !outcome.met
      ? ''
      : sure
        ? '; the late end of the band too'
        : '; not by the late end of the band'
  return [
    `${gainWords(tried)}${titleWords(titles)}`,
    `  ${outcomeWords(outcome, tried)}${late}`,
    `  costs: ${trouble.map(words).join('; ')}`,
    ...(elsewhere === undefined ? [] : elsewhereWords(elsewhere, metric).map((line) => `  ${line}`)),
  ]
}

/** Whether a change makes a difference that is worth a line of its own. */
const matters = ({ gain_h, outcome }: TriedChange, now: Outcome): boolean =>
  gain_h === undefined ? outcome.met !== now.met : Math.abs(gain_h) > SMALL_H

/** What would help, in words for a terminal. */
export function tellHelp(plan: Plan, { question, now, nowBand, ranked, together, left }: Help): string {
  const idle = ranked.filter((tried) => !matters(tried, now))
  const reasons = [...new Set(left.map(({ why }) => why))]
  return [
    `${plan.title}\n${questionWords(plan, question)}: ${outcomeWords(now, nowBand)}${now.met && !now.sure ? ', not by the late end of the band' : ''}\n`,
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

/** `thickset decide PLAN`. Interrupted it tells what was tried by then. */
export async function carryDecide(asked: Words): Promise<number> {
  const { how, jobs } = collectFaults({ how: () => planWordsOf(asked), jobs: () => jobsOf(asked) })
  const plan = await askedPlan(asked, how)
  const question = askedBy(plan, asked)
  const progress = watchProgress(asked.has('progress'))
  const { report } = progress
  const help = await untilInterrupted((signal) =>
    doneOnThreads('looks', null, (atOnce) => helpInParts(plan, question, {}, atOnce), {
      workers: jobs,
      signal,
      report,
    }),
  )
  progress.done()
  process.stdout.write(
    asked.has('json')
      ? `${JSON.stringify({ format: 'thickset-decision', version: 1, title: plan.title, ...saidHelp(help) })}\n`
      : tellHelp(plan, help),
  )
  if (help.unfinished !== true) return DONE
  process.stderr.write('stopped before everything was tried\n')
  return UNFINISHED
}
