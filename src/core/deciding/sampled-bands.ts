import type { Answer, Forecast, RuleVerdict } from '../forecast-types.ts'
import type { Message } from '../messages.ts'
import { bandKey, bandValues, type TimeBand } from '../words/banded.ts'
import type { CurveSpread, Spread, SpreadNumber } from './spread.ts'

/*
 * A forecast with the bands of a spread in place of the quick estimate: of its curves, of the moments of its answers,
 * and of the steps of its rules. Likely courses and verdicts stay.
 */

type Curve = readonly (number | null)[]

/** A sampled curve at the moments of another, straight between its own. */
function readAt(from_h: readonly number[], values: Curve, times_h: readonly number[]): (number | null)[] {
  let i = 0
  return times_h.map((at_h, index) => {
    // Of a moment that stands twice the second half belongs to what comes after it.
    const later = index > 0 && times_h[index - 1] === at_h
    while (i < from_h.length - 2 && (from_h[i + 1]! < at_h || (later && from_h[i + 1]! <= at_h))) i++
    const [a, b] = [values[i] ?? null, values[i + 1] ?? null]
    if (a === null || b === null) return a ?? b
    const span = from_h[i + 1]! - from_h[i]!
    const share = span <= 0 ? 0 : Math.min(1, Math.max(0, (at_h - from_h[i]!) / span))
    return a + share * (b - a)
  })
}

/** The band of a curve; it holds the likely course, which has the finer grid. */
function bandOfCurve({ times_h }: Spread, { p5, p95 }: CurveSpread, likely: Curve, at_h: readonly number[]) {
  const [low, high] = [readAt(times_h, p5, at_h), readAt(times_h, p95, at_h)]
  const within = (edge: (number | null)[], pick: (a: number, b: number) => number): (number | null)[] =>
    edge.map((value, i) => {
      const own = likely[i] ?? null
      return value === null || own === null ? own : pick(value, own)
    })
  return { low: within(low, Math.min), high: within(high, Math.max) }
}

const bandOf = ({ p5_h, p95_h }: SpreadNumber, likely_h: number): TimeBand => ({
  early_h: Math.min(likely_h, p5_h ?? likely_h),
  ...(p95_h === undefined ? {} : { late_h: Math.max(likely_h, p95_h) }),
})

/** A sentence that tells a moment with another band. */
function retold(told: Message, key: string, likely_h: number, band: TimeBand): Message {
  if (told.values[key] !== likely_h) return told
  const { [bandKey(key, 'early')]: _, [bandKey(key, 'late')]: __, ...others } = told.values
  return { ...told, values: { ...others, ...bandValues(key, band) } }
}

function answerAs(answer: Answer, spread: Spread): Answer {
  const { at_h } = answer
  const sampled = spread.answers.find(({ index }) => index === answer.index)
  if (at_h === undefined || sampled === undefined || sampled.reached === 0) return answer
  const { early_h: _, late_h: __, ...rest } = answer
  const band = bandOf(sampled, at_h)
  return { ...rest, ...band, why: retold(answer.why, 'at_h', at_h, band) }
}

function verdictAs(verdict: RuleVerdict, spread: Spread): RuleVerdict {
  const sampled = spread.rules.find(({ rule }) => rule === verdict.rule)
  if (sampled === undefined) return verdict
  const banded = verdict.steps.map((step, index) => {
    const own = sampled.steps[index]
    if (step.taken_h === undefined || own === undefined || own.reached === 0) return { step, band: undefined }
    const { early_h: _, late_h: __, ...rest } = step
    const band = bandOf(own, step.taken_h)
    return { step: { ...rest, ...band }, band }
  })
  const why = banded.reduce(
    (told, { step, band }) =>
      band === undefined || told.values.from_C !== step.from_C || told.values.to_C !== step.to_C
        ? told
        : retold(told, 'taken_h', step.taken_h ?? Number.NaN, band),
    verdict.why,
  )
  return { ...verdict, steps: banded.map(({ step }) => step), why }
}

/** A forecast with the bands of its own plan's spread. */
export function withSampledBands(forecast: Forecast, spread: Spread): Forecast {
  const { times_h, curves, bands } = forecast
  const sampled = Object.keys(bands).map((name) => {
    const own = spread.curves[name]
    return [name, own === undefined ? bands[name]! : bandOfCurve(spread, own, curves[name]!, times_h)] as const
  })
  return {
    ...forecast,
    model: { ...forecast.model, bands: 'sampled', sampled_runs: spread.runs },
    bands: Object.fromEntries(sampled),
    answers: forecast.answers.map((answer) => answerAs(answer, spread)),
    safety: forecast.safety.map((verdict) => verdictAs(verdict, spread)),
  }
}
