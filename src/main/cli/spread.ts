import { type Spread, type SpreadNumber, summariseSpread } from '../../core/deciding/spread.ts'
import { drawsOf } from '../../core/deciding/spread-samples.ts'
import { Cancelled } from '../../core/errors.ts'
import { samplesFromPool } from '../../core/pooled/sampled.ts'
import { metric } from '../../core/words/show.ts'
import { openThreads } from '../pool/pool.ts'
import { askedPlan, planWordsOf } from './asked-plan.ts'
import { DONE, UNFINISHED } from './exit-codes.ts'
import { untilInterrupted } from './interrupt.ts'
import { jobsOf } from './jobs.ts'
import { wholeOf } from './numbers.ts'
import { watchProgress } from './progress.ts'
import { textSection } from './text-table.ts'
import { collectFaults, type Words } from './words.ts'

const RUNS = 200
/** Fewer say nothing of the ends of a band. */
const LEAST_RUNS = 20
const MOST_RUNS = 20_000
/** Inputs that are told for each answer. */
const TOLD = 6
/** Below this, what drives a spread isn't told by the regression. */
const WEAK_R2 = 0.7

/** `thickset spread PLAN`. Interrupted it tells the runs that were done by then. */
export async function carrySpread(words: Words): Promise<number> {
  const { runs, seed, jobs, how } = collectFaults({
    runs: () => wholeOf(words, 'runs', RUNS, LEAST_RUNS, MOST_RUNS),
    seed: () => wholeOf(words, 'seed', 1, 0, 2 ** 31 - 1),
    jobs: () => jobsOf(words),
    how: () => planWordsOf(words),
  })
  const plan = await askedPlan(words, how)
  const ask = { runs, seed }
  const progress = watchProgress(words.has('progress'))
  const { report } = progress
  const { done, samples, task, likely } = await untilInterrupted((signal) =>
    samplesFromPool(openThreads('spread', { plan, ask }, { workers: jobs, signal }), ask, report),
  )
  progress.done()
  if (done.length < LEAST_RUNS) throw new Cancelled()
  const spread = summariseSpread(drawsOf(task, done), { runs: done.length, seed }, likely, samples)
  process.stdout.write(
    words.has('json')
      ? `${JSON.stringify({ format: 'thickset-spread', version: 1, ...spreadDocument(spread) })}\n`
      : tellSpread(spread),
  )
  if (done.length === runs) return DONE
  process.stderr.write(`stopped after ${done.length} of ${runs} runs\n`)
  return UNFINISHED
}

function numberDocument({ drivers, ...rest }: SpreadNumber, spread: Spread) {
  if (drivers === undefined) return rest
  const named = drivers.drivers.map(({ input, coefficient }) => ({
    input: spread.inputs[input]?.title ?? '',
    coefficient,
  }))
  return { ...rest, drivers: named, R2: drivers.R2 }
}

/** The document that `spread --json` prints. */
export function spreadDocument(spread: Spread) {
  return {
    ...spread,
    answers: spread.answers.map((answer) => ({ ...answer, ...numberDocument(answer, spread) })),
    rules: spread.rules.map((rule) => ({
      ...rule,
      steps: rule.steps.map((step) => ({ ...step, ...numberDocument(step, spread) })),
    })),
  }
}

const percent = (share: number): string => `${metric.number(100 * share)} %`

const hours = (value: number | undefined): string => (value === undefined ? 'beyond the plan' : metric.duration(value))

function tellNumber({ likely_h, p5_h, p50_h, p95_h, reached, drivers }: SpreadNumber, spread: Spread): string[] {
  if (reached === 0) return ['never, in any run']
  return [
    `5 %: ${hours(p5_h)}, 50 %: ${hours(p50_h)}, 95 %: ${hours(p95_h)}${likely_h === undefined ? '' : ` (likely course: ${hours(likely_h)})`}`,
    ...(reached < 1 ? [`reached within the plan in ${percent(reached)} of the runs`] : []),
    ...(drivers === undefined
      ? []
      : [
          'driven by (rank regression, −1 to 1):',
          ...drivers.drivers
            .slice(0, TOLD)
            .map(
              ({ input, coefficient }) =>
                `  ${coefficient < 0 ? '−' : '+'}${Math.abs(coefficient).toFixed(2)}  ${spread.inputs[input]?.title ?? ''}`,
            ),
          `these explain ${percent(drivers.R2)} of the spread${drivers.R2 < WEAK_R2 ? ': the rest does not follow the inputs one by one, so take the order lightly' : ''}`,
        ]),
  ]
}

function tellSpread(spread: Spread): string {
  const { title, runs, seed, answers, rules, inputs } = spread
  return [
    `${title}\n${runs} runs, seed ${seed}, ${inputs.length} uncertain inputs\n`,
    ...answers.map((answer) =>
      textSection(`${answer.target}${answer.by_h === undefined ? '' : `, asked after ${hours(answer.by_h)}`}`, [
        `met in ${percent(answer.met)} of the runs`,
        ...tellNumber(answer, spread),
      ]),
    ),
    ...rules.map((rule) =>
      textSection(rule.title, [
        `met in ${percent(rule.met)} of the runs at the worst place`,
        ...rule.steps.flatMap((step) => [
          `${metric.temperature(step.from_C)} to ${metric.temperature(step.to_C)}, allowed ${metric.duration(step.within_h)}`,
          ...tellNumber(step, spread).map((line) => `  ${line}`),
        ]),
      ]),
    ),
    textSection(
      'Inputs, one standard deviation',
      inputs.map(
        ({ title: of, sigma, unit, source }) =>
          `${of}: ${unit === 'K' ? metric.difference(sigma) : unit === 'factor' ? `${metric.number(100 * (Math.exp(sigma) - 1))} %` : 'from low to high'} (${source})`,
      ),
    ),
  ].join('')
}
