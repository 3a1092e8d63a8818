import { type Limit, limitInParts, type Tried } from '../../core/choosing/limit.ts'
import { type OneNumber, oneNumber } from '../../core/choosing/one-number.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { metric } from '../../core/words/show.ts'
import { doneOnThreads } from '../pool/pool.ts'
import { askedPlan, planWordsOf } from './asked-plan.ts'
import { askedBy, outcomeWords, questionWords } from './decide.ts'
import { DONE, UNFINISHED } from './exit-codes.ts'
import { untilInterrupted } from './interrupt.ts'
import { jobsOf } from './jobs.ts'
import { watchProgress } from './progress.ts'
import { textSection } from './text-table.ts'
import { collectFaults, type Words, wordFault } from './words.ts'

function numberOf(words: Words, option: string): number | undefined {
  const text = words.text(option)
  if (text === undefined) return undefined
  const value = Number(text.replace('−', '-'))
  if (!Number.isFinite(value)) throw wordFault(`--${option} ${text} is no number`, `write --${option} 120`)
  return value
}

/** The number that is sought: that of `--number`, the thickness of `--layer`, or of the thickest layer. */
function soughtBy(plan: Plan, words: Words): OneNumber {
  const [path, layer] = [words.text('number'), words.text('layer')]
  if (path !== undefined && layer !== undefined)
    throw wordFault('--number and --layer are both given', 'write one of them')
  if (path !== undefined) return oneNumber(plan, path)
  if (layer !== undefined) return oneNumber(plan, `${layer}.thickness_mm`)
  const given = plan.piece.fill.map(({ thickness_mm }) => thickness_mm ?? 0)
  const most = Math.max(...given)
  if (most === 0) throw wordFault('no layer has a thickness of its own', 'write --number PATH, such as shape.radius_mm')
  return oneNumber(plan, `fill[${given.indexOf(most)}].thickness_mm`)
}

const shown = (value: number | undefined, unit: string): string =>
  value === undefined ? 'none' : `${metric.number(Math.round(value * 100) / 100)} ${unit}`

/** Met or not at each value that was tried: the scan has no bands, so it tells no times. */
function scanLine({ value, refused, ...outcome }: Tried, unit: string): string {
  return `${shown(value, unit).padStart(14)}  ${refused === undefined ? outcomeWords(outcome) : `no plan: ${refused}`}`
}

/** What was found; of a search that was stopped, how far it had come. */
function foundWords({ unit, end, value, beyond, unfinished }: Limit): string {
  if (value === undefined) return 'no value of the range meets it'
  const known = unfinished === true ? 'meets it, as far as it was looked at' : `${end} that meets it`
  return `${known}: ${shown(value, unit)}${beyond ? ' or beyond: the whole range to there meets it' : ''}`
}

/** A limit in words for a terminal. */
export function tellLimit(plan: Plan, asked: string, limit: Limit): string {
  const { path, unit, now, value, sure, possible, monotone, changes, scan, unfinished } = limit
  return [
    `${plan.title}\n${path} (now ${shown(now, unit)}), asked: ${asked}\n`,
    textSection('Limit', [
      foundWords(limit),
      ...(value === undefined || unfinished === true
        ? []
        : [`with the late end of the band: ${shown(sure, unit)}; with the early end: ${shown(possible, unit)}`]),
      ...(monotone
        ? []
        : [`not on one side of one limit: it changes at ${changes.map((change) => shown(change, unit)).join(', ')}`]),
    ]),
    textSection(
      'Tried',
      scan.map((tried) => scanLine(tried, unit)),
    ),
  ].join('')
}

/** `thickset thickest PLAN`. Interrupted after its scan it tells what is known by then. */
export async function carryThickest(words: Words): Promise<number> {
  const { from, to, how, jobs } = collectFaults({
    from: () => numberOf(words, 'from'),
    to: () => numberOf(words, 'to'),
    how: () => planWordsOf(words),
    jobs: () => jobsOf(words),
  })
  const plan = await askedPlan(words, how)
  const { question, number } = collectFaults({
    question: () => askedBy(plan, words),
    number: () => soughtBy(plan, words),
  })
  const low = from ?? number.range?.[0]
  const high = to ?? number.range?.[1]
  if (low === undefined || high === undefined)
    throw wordFault(`${number.path} has no value to look around`, 'write --from A --to B')
  const progress = watchProgress(words.has('progress'))
  const { report } = progress
  const ask = { end: words.has('least') ? 'least' : 'greatest', from: low, to: high } as const
  const limit = await untilInterrupted((signal) =>
    doneOnThreads('looks', null, (atOnce) => limitInParts(number, question, ask, atOnce), {
      workers: jobs,
      signal,
      report,
    }),
  )
  progress.done()
  process.stdout.write(
    words.has('json')
      ? `${JSON.stringify({ format: 'thickset-limit', version: 1, title: plan.title, question, ...limit })}\n`
      : tellLimit(plan, questionWords(plan, question), limit),
  )
  if (limit.unfinished !== true) return DONE
  process.stderr.write('stopped before the limit and its band were found\n')
  return UNFINISHED
}
