import { existsSync } from 'node:fs'
import type { FitFactor } from '../../core/fitting/factors.ts'
import { fitInParts, prepareFit } from '../../core/fitting/fit.ts'
import type { Estimate, Fit } from '../../core/fitting/fit-types.ts'
import { keepMeasured } from '../../core/fitting/keep-measured.ts'
import { joinKept, type Kept, type WithKept, withKept } from '../../core/fitting/kept.ts'
import { readingsOfLog } from '../../core/fitting/log-readings.ts'
import { type DayAnswer, dayOf, type OnTheDay } from '../../core/fitting/on-the-day.ts'
import type { Reading } from '../../core/fitting/readings.ts'
import { forecast } from '../../core/forecast.ts'
import type { Forecast } from '../../core/forecast-types.ts'
import { LOG_LIMIT, type Log, readLog } from '../../core/plan/log.ts'
import { PLAN_LIMIT, type Plan } from '../../core/plan/schema/plan.ts'
import { writePlan } from '../../core/plan/write.ts'
import { bandedWords } from '../../core/words/banded.ts'
import { say } from '../../core/words/sentences.ts'
import { metric, type Show } from '../../core/words/show.ts'
import { doneOnThreads } from '../pool/pool.ts'
import { asAsked, type PlanWords, planWordsOf } from './asked-plan.ts'
import { clockShow } from './clock-show.ts'
import { giveFile } from './give.ts'
import { readText } from './input.ts'
import { untilInterrupted } from './interrupt.ts'
import { jobsOf } from './jobs.ts'
import { readKeptFile } from './kept-file.ts'
import { watchProgress } from './progress.ts'
import { readAsWritten, zoned } from './read-plan.ts'
import { textSection, textTable } from './text-table.ts'
import { collectFaults, type Words, wordFault } from './words.ts'

/** Readings that are told one by one. */
const TOLD = 24

const KINDS: readonly FitFactor['kind'][] = [
  'film',
  'face film',
  'conductivity',
  'heat',
  'start temperature',
  'thickness',
  'air temperature',
  'power',
  'probe depth',
  'probe reading',
  'clock',
  'clock rate',
]

/** Kinds of factors among the words; all where none are named. */
function factorsOf(words: Words): readonly FitFactor['kind'][] | undefined {
  const asked = words.text('factors')
  if (asked === undefined) return undefined
  return asked.split(',').map((text) => {
    const kind = KINDS.find((one) => one === text.trim().replaceAll('-', ' '))
    if (kind === undefined)
      throw wordFault(
        `--factors ${text} is unknown`,
        `write some of ${KINDS.map((one) => one.replaceAll(' ', '-')).join(',')}`,
      )
    return kind
  })
}

/** A number among the words. */
function numberOf(words: Words, option: string, least: number, most: number, example: string): number | undefined {
  const text = words.text(option)
  if (text === undefined) return undefined
  const value = Number(text)
  if (!Number.isFinite(value) || value < least || value > most)
    throw wordFault(`--${option} ${text} is out of range`, `write --${option} ${example}`)
  return value
}

interface Measured {
  readonly readings: readonly Reading[]
  readonly log: Log | undefined
}

/** The readings of a log, or those that the plan holds. */
async function readingsFor(plan: Plan, words: Words): Promise<Measured> {
  const path = words.text('readings')
  if (path === undefined) {
    if ((plan.readings ?? []).length === 0) throw wordFault('the plan holds no readings', 'write --readings LOG.csv')
    return { readings: plan.readings ?? [], log: undefined }
  }
  const zone_h = numberOf(words, 'zone', -14, 14, '2')
  const log = readLog(await readText(path, LOG_LIMIT), zone_h === undefined ? {} : { zone_h })
  const probe = words.text('probe')
  const fast_min = numberOf(words, 'fast', -10_000, 10_000, '3 (minutes)')
  const ask = { ...(probe === undefined ? {} : { probe }), ...(fast_min === undefined ? {} : { fast_min }) }
  return { readings: readingsOfLog(plan, log, ask), log }
}

/** `thickset fit PLAN`. */
export async function carryFit(words: Words): Promise<number> {
  const { how, factors, noise_K, jobs } = collectFaults({
    how: () => planWordsOf(words),
    jobs: () => jobsOf(words),
    factors: () => factorsOf(words),
    noise_K: () => numberOf(words, 'noise', 0.01, 20, '0.5 (K)'),
  })
  const given = readAsWritten(await readText(words.operands[0] ?? '-', PLAN_LIMIT))
  const plan = await asAsked(zoned(given), how)
  const { readings, log } = await readingsFor(plan, words)
  const progress = watchProgress(words.has('progress'))
  const { report } = progress
  const task = prepareFit(plan, readings, {
    logged: log !== undefined,
    ...(factors === undefined ? {} : { factors }),
    ...(noise_K === undefined ? {} : { noise_K }),
  })
  const fitted = await untilInterrupted((signal) =>
    doneOnThreads('fit', task.start, () => fitInParts(task), { workers: jobs, signal, report }),
  )
  const day = dayOf({ ...plan, readings: [...readings] }, fitted, progress)
  const [keep, apply, write] = [words.text('keep'), words.text('apply-to'), words.text('write')]
  const kept = keep === undefined && apply === undefined ? undefined : keepMeasured(plan, fitted)
  if (keep !== undefined && kept !== undefined) await keepIn(keep, kept)
  const scaled = apply === undefined || kept === undefined ? undefined : await scaleTo(apply, kept, how)
  progress.done()
  if (write !== undefined) giveFile(write, writePlan(scaled?.taken.plan ?? { ...given, readings: [...readings] }))
  process.stdout.write(
    words.has('json')
      ? `${JSON.stringify(fitDocument(plan, day, kept, scaled))}\n`
      : tellFit(plan, day, log, keep, scaled),
  )
  return 0
}

/** Puts what was kept beside what a file holds already. */
async function keepIn(path: string, kept: Kept): Promise<void> {
  const older = existsSync(path) ? await readKeptFile(path) : undefined
  giveFile(path, `${JSON.stringify(older === undefined ? kept : joinKept(older, kept), null, 2)}\n`)
}

interface Scaled {
  readonly taken: WithKept
  readonly before: Forecast
  readonly after: Forecast
}

/** Another plan with what was found, forecast without and with it. */
async function scaleTo(path: string, kept: Kept, { fidelity }: PlanWords): Promise<Scaled> {
  const read = readAsWritten(await readText(path, PLAN_LIMIT))
  const other = fidelity === undefined ? read : { ...read, fidelity }
  const taken = withKept(other, kept)
  if (taken.stages.length + taken.materials.length === 0)
    throw wordFault(
      `${path} has none of the surroundings and materials that were measured`,
      'give a plan with the same ones',
    )
  return { taken, before: forecast(zoned(other)), after: forecast(zoned(taken.plan)) }
}

const answersOf = ({ answers }: Forecast) =>
  answers.map(({ target, index, answer, at_h, early_h, late_h, margin_h }) => ({
    target,
    index,
    answer,
    at_h,
    early_h,
    late_h,
    margin_h,
  }))

function fitDocument(
  plan: Plan,
  { fit, answers, now_h }: OnTheDay,
  kept: Kept | undefined,
  scaled: Scaled | undefined,
) {
  return {
    format: 'thickset-fit',
    version: 1,
    title: plan.title,
    now_h,
    ...fit,
    notes: fit?.notes.map((note) => say(note, metric)),
    answers: answers.map(({ why, todo, ...rest }) => ({ ...rest, why: say(why, metric), todo: say(todo, metric) })),
    ...(kept === undefined ? {} : { kept }),
    ...(scaled === undefined
      ? {}
      : {
          applied: {
            stages: scaled.taken.stages,
            materials: scaled.taken.materials,
            before: answersOf(scaled.before),
            after: answersOf(scaled.after),
            plan: scaled.taken.plan,
          },
        }),
  }
}

const signed = (value: number, digits: number): string => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(digits)}`

/** A number of a fit with its unit. */
function valueWords(unit: Estimate['unit'], value: number): string {
  switch (unit) {
    case 'factor':
      return `× ${value.toFixed(2)}`
    case 'K':
      return `${signed(value, 1)} K`
    case 'mm':
      return `${signed(value, 1)} mm`
    case 'min':
      return `${signed(value, 1)} min`
    case 'min a day':
      return `${signed(value, 1)} min a day`
  }
}

const spanWords = ({ unit, value, low, high }: Estimate): string =>
  value === undefined || low === undefined || high === undefined
    ? ''
    : `${valueWords(unit, value)} (${valueWords(unit, low)} to ${valueWords(unit, high)})`

function estimateRows(estimates: readonly Estimate[]): string[] {
  const told = estimates.filter(({ determined }) => determined !== 'not')
  return textTable(
    told.map((one) => [one.title, spanWords(one), one.determined === 'well' ? 'well determined' : 'partly']),
  )
}

function readingRows({ readings }: Fit, show: Show): string[] {
  const step = Math.max(1, Math.ceil(readings.length / TOLD))
  const shown = readings.filter(({ outlier }, index) => outlier || index % step === 0)
  return textTable([
    ['when', 'probe', 'read', 'expected', 'apart', ''],
    ...shown.map(({ at_h, probe, C, expected_C, residual_K, outlier }) => [
      show.moment(at_h),
      probe,
      show.temperature(C),
      show.temperature(expected_C),
      `${signed(residual_K, 1)} K`,
      outlier ? 'strays' : '',
    ]),
  ])
}

/** A moment with its band. */
function bandWords({ at_h, early_h, late_h }: DayAnswer['now'], show: Show): string {
  if (at_h === undefined) return 'not within the plan'
  const band = { ...(early_h === undefined ? {} : { early_h }), ...(late_h === undefined ? {} : { late_h }) }
  return bandedWords(show.moment, at_h, band, 'later')
}

function tellFit(
  plan: Plan,
  { fit, answers }: OnTheDay,
  log: Log | undefined,
  keep: string | undefined,
  scaled: Scaled | undefined,
): string {
  if (fit === null) return ''
  const show = clockShow(plan)
  const open = [...fit.factors, ...fit.derived].filter(({ determined }) => determined === 'not')
  const gaps = log?.gaps ?? []
  return [
    `${plan.title}\n${fit.readings.reduce((sum, { count }) => sum + count, 0)} readings: ${metric.difference(fit.before_K)} off before, ${metric.difference(fit.after_K)} after\n`,
    textSection(
      'Warnings',
      fit.notes.map((note) => say(note, show)),
    ),
    textSection(
      'Gaps in the log',
      gaps.map(({ from, to }) => `${metric.duration((to - from) / 3600)} after ${metric.duration(from / 3600)} of it`),
    ),
    textSection('What the readings say, against the plan', estimateRows([...fit.derived, ...fit.factors])),
    textSection(
      'What they leave open',
      open.map(({ title }) => title),
    ),
    textSection('Readings', readingRows(fit, show)),
    textSection(
      'How it goes on',
      answers.flatMap(({ target, promised, now, why, todo }) => [
        `${target}: ${bandWords(now, show)}`,
        `  promised: ${bandWords(promised, show)}`,
        `  ${say(why, show)}`,
        `  ${say(todo, show)}`,
      ]),
    ),
    keep === undefined ? '' : `\nKept in ${keep}, for later plans: --measured ${keep}\n`,
    scaled === undefined ? '' : tellScaled(scaled),
  ].join('')
}

function tellScaled({ taken, before, after }: Scaled): string {
  const show = clockShow(taken.plan)
  return textSection(`${taken.plan.title}, with what was measured`, [
    `taken over: ${[...taken.stages.map((name) => `surroundings of "${name}"`), ...taken.materials].join(', ')}`,
    ...after.answers.flatMap((answer, index) => [
      `${answer.target}: ${bandWords(answer, show)}`,
      `  without it: ${bandWords(before.answers[index] ?? {}, show)}`,
    ]),
  ])
}
