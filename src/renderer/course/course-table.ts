import type { Forecast } from '../../core/forecast-types.ts'
import { hourTicks } from './clock-axis.ts'
import { readingOrder } from './curve-style.ts'
import { type CurveValue, readCurve } from './read-curve.ts'

/** The chart's numbers as rows. */
export interface TableRow {
  readonly at_h: number
  /** Stages that end and begin here, or the one that runs. */
  readonly stage: string
  readonly values: readonly CurveValue[]
  /** Early and late value of the core, where it has a band. */
  readonly band: readonly [number, number] | null
}

export interface CourseTableModel {
  readonly keys: readonly string[]
  readonly rows: readonly TableRow[]
}

const steps = [0.25, 0.5, 1, 2, 3, 4, 6, 12, 24]
const mostRows = 40

/** Rows at round hours, at every stage's start, at the moments asked and likely, and at the end. */
export function courseTable(forecast: Forecast): CourseTableModel {
  const keys = readingOrder(Object.keys(forecast.curves))
  const [from_h, to_h] = [forecast.times_h[0] ?? 0, forecast.times_h.at(-1) ?? 0]
  const step = steps.find((one) => (to_h - from_h) / one <= mostRows) ?? 48
  const told = [
    ...hourTicks(from_h, to_h, step),
    ...forecast.stages.map((stage) => stage.from_h),
    ...forecast.answers.flatMap((answer) => [answer.by_h, answer.at_h]).filter((at_h) => at_h !== undefined),
    to_h,
  ].filter((at_h) => at_h >= from_h && at_h <= to_h)
  return { keys, rows: distinct(told).map((at_h) => rowAt(forecast, keys, at_h)) }
}

/** Rising, and one only of those that read the same to the minute. */
function distinct(moments_h: readonly number[]): readonly number[] {
  const sorted = [...moments_h].sort((a, b) => a - b)
  return sorted.filter((at_h, index) => index === 0 || at_h - sorted[index - 1]! > 1 / 60)
}

function rowAt(forecast: Forecast, keys: readonly string[], at_h: number): TableRow {
  const { times_h, bands } = forecast
  const core = bands.core
  const [low, high] = core ? [readCurve(times_h, core.low, at_h), readCurve(times_h, core.high, at_h)] : [null, null]
  return {
    at_h,
    stage: stageAt(forecast, at_h)?.name ?? '',
    values: keys.map((key) => readCurve(times_h, forecast.curves[key]!, at_h)),
    band: low === null || high === null ? null : [low, high],
  }
}

/** The stage that runs at a moment; at a boundary the one that begins. */
export function stageAt(forecast: Forecast, at_h: number): Forecast['stages'][number] | undefined {
  return forecast.stages.findLast((stage) => stage.from_h <= at_h + 1e-9) ?? forecast.stages[0]
}
