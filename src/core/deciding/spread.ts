import type { Forecast } from '../forecast-types.ts'
import { toHours } from '../units.ts'
import type { Input } from './inputs.ts'
import { type Quantiles, quantileOf, quantilesOf } from './quantiles.ts'
import { type Drivers, type FindDrivers, rankRegression } from './rank-regression.ts'
import type { SpreadAsk, SpreadDraws } from './spread-samples.ts'

/** A number over all runs, hours; a quantile is absent where those runs never get there. */
export interface SpreadNumber {
  /** The forecast's own. */
  readonly likely_h?: number
  readonly p5_h?: number
  readonly p50_h?: number
  readonly p95_h?: number
  /** Share of the runs that get there at all, 0 to 1. */
  readonly reached: number
  /** Absent where nothing varies, or where there are too few runs. */
  readonly drivers?: Drivers
}

export interface AnswerSpread extends SpreadNumber {
  readonly target: string
  /** Place in the plan's targets. */
  readonly index: number
  readonly by_h?: number
  /** Share of the runs in which it is met, 0 to 1. */
  readonly met: number
}

export interface RuleSpread {
  readonly rule: string
  readonly title: string
  readonly met: number
  readonly steps: readonly (SpreadNumber & {
    readonly from_C: number
    readonly to_C: number
    readonly within_h: number
  })[]
}

/** °C. Shape of each: as `times_h` of the spread; null before the place is there. */
export interface CurveSpread {
  readonly p5: readonly (number | null)[]
  readonly p50: readonly (number | null)[]
  readonly p95: readonly (number | null)[]
}

/** A plan's answers and curves over all its sampled inputs. */
export interface Spread extends SpreadAsk {
  readonly title: string
  readonly inputs: readonly Input[]
  readonly answers: readonly AnswerSpread[]
  readonly rules: readonly RuleSpread[]
  readonly times_h: readonly number[]
  readonly curves: Readonly<Record<string, CurveSpread>>
}

const columnOf = (samples: Float64Array, width: number, column: number): Float64Array =>
  Float64Array.from({ length: samples.length / width }, (_, run) => samples[run * width + column]!)

/** Runs and the plan as it is share a grid; what they differ by is added to the forecast, which has a finer one. */
function moved(values: Float64Array, nominal: number, likely: number | undefined): Float64Array {
  const shift = likely !== undefined && Number.isFinite(nominal) ? likely - nominal : 0
  return values.map((value) => Math.max(0, value + shift))
}

function finite(quantiles: Quantiles): Pick<SpreadNumber, 'p5_h' | 'p50_h' | 'p95_h'> {
  const { p5, p50, p95 } = quantiles
  return {
    ...(Number.isFinite(p5) ? { p5_h: p5 } : {}),
    ...(Number.isFinite(p50) ? { p50_h: p50 } : {}),
    ...(Number.isFinite(p95) ? { p95_h: p95 } : {}),
  }
}

const shareOf = (values: ArrayLike<number>, holds: (value: number) => boolean): number => {
  let count = 0
  for (let i = 0; i < values.length; i++) if (holds(values[i]!)) count++
  return count / values.length
}

function numberOf(find: FindDrivers, values: Float64Array, likely: number | undefined): SpreadNumber {
  const drivers = find(values)
  return {
    ...(likely === undefined ? {} : { likely_h: likely }),
    ...finite(quantilesOf(values)),
    reached: shareOf(values, Number.isFinite),
    ...(drivers === undefined ? {} : { drivers }),
  }
}

function curvesOf(task: SpreadDraws, samples: Float64Array, first: number): Record<string, CurveSpread> {
  const { curves, moments, width } = task.columns
  const count = samples.length / width
  return Object.fromEntries(
    curves.map((name, curve) => {
      const sorted = moments.map((_, moment) => {
        const column = first + curve * moments.length + moment
        const there = columnOf(samples, width, column).filter((value) => !Number.isNaN(value))
        return there.length < count ? null : there.sort()
      })
      const at = (share: number) => sorted.map((values) => (values === null ? null : quantileOf(values, share)))
      return [name, { p5: at(0.05), p50: at(0.5), p95: at(0.95) }]
    }),
  )
}

/**
 * The spread from its samples.
 * @param forecast  of the same plan
 * @param samples  all runs in order. Shape: runs × columns.width, row-major
 */
export function summariseSpread(
  task: SpreadDraws,
  ask: SpreadAsk,
  forecast: Pick<Forecast, 'title' | 'answers' | 'safety'>,
  samples: Float64Array,
): Spread {
  const { columns, nominal } = task
  const { width } = columns
  const read = (column: number): Float64Array => columnOf(samples, width, column)
  const find = rankRegression(task.draws)
  const answers = forecast.answers.map((answer, index): AnswerSpread => {
    const { target, at_h, by_h } = answer
    const values = moved(read(2 * index), nominal[2 * index]!, at_h)
    return {
      target,
      index: answer.index,
      ...(by_h === undefined ? {} : { by_h }),
      ...numberOf(find, values, at_h),
      met: shareOf(read(2 * index + 1), (value) => value === 1),
    }
  })
  let column = 2 * columns.targets
  const rules = forecast.safety.flatMap((verdict, index): RuleSpread[] => {
    const first = column
    column += columns.steps[index]! + 1
    if (verdict.answer === 'does not apply') return []
    const steps = verdict.steps.map(({ from_C, to_C, within_h, taken_h }, step) => ({
      from_C,
      to_C,
      within_h,
      ...numberOf(find, moved(read(first + step), nominal[first + step]!, taken_h), taken_h),
    }))
    const met = shareOf(read(column - 1), (value) => value === 1)
    return [{ rule: verdict.rule, title: verdict.title, met, steps }]
  })
  return {
    ...ask,
    title: forecast.title,
    inputs: task.inputs,
    answers,
    rules,
    times_h: columns.moments.map(({ at }) => toHours(at)),
    curves: curvesOf(task, samples, column),
  }
}
