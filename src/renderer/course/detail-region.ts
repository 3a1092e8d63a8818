import type { Forecast } from '../../core/forecast-types.ts'
import type { ChartFrame } from './chart-frame.ts'
import { type LinearScale, toPixel } from './linear-scale.ts'
import { readCurve } from './read-curve.ts'
import type { TargetMark } from './target-marks.ts'

/** A part of the course that is drawn larger beside it: where the core passes what was asked. */
export interface DetailRegion {
  readonly from_h: number
  readonly to_h: number
  readonly low_C: number
  readonly high_C: number
  readonly T_C: number
}

/** Narrower or lower than this in the chart, px, it is worth to be drawn larger. */
const SMALL_WIDTH = 110
const SMALL_HEIGHT = 46
/** Least stretch of time and of temperature that is drawn, h and K. */
const LEAST_H = 1
const LEAST_K = 2

/** Where the first likely moment lies on its whisker, if the chart shows it too small to be read. */
export function detailRegion(
  forecast: Forecast,
  marks: readonly TargetMark[],
  frame: ChartFrame,
  y: LinearScale,
): DetailRegion | undefined {
  const mark = marks.find(({ likely }) => likely?.late_h !== undefined)
  const likely = mark?.likely
  if (mark === undefined || likely?.late_h === undefined) return undefined
  const { early_h, late_h, at_h } = likely
  const room_h = Math.max(LEAST_H - (late_h - early_h), 0.35 * (late_h - early_h)) / 2
  const [from_h, to_h] = [Math.max(frame.x.from, early_h - room_h), Math.min(frame.x.to, late_h + room_h)]
  const band = forecast.bands.core
  const edges = [from_h, to_h, at_h].flatMap((moment) =>
    [band?.low, band?.high, forecast.curves.core]
      .map((curve) => (curve === undefined ? null : readCurve(forecast.times_h, curve, moment)))
      .filter((value) => value !== null),
  )
  const room_K = Math.max(LEAST_K, 0.1 * (Math.max(...edges) - Math.min(...edges)))
  const [low_C, high_C] = [Math.min(...edges, mark.T_C) - room_K / 2, Math.max(...edges, mark.T_C) + room_K / 2]
  const width = toPixel(frame.x, to_h) - toPixel(frame.x, from_h)
  const height = Math.abs(toPixel(y, low_C) - toPixel(y, high_C))
  return width < SMALL_WIDTH || height < SMALL_HEIGHT ? { from_h, to_h, low_C, high_C, T_C: mark.T_C } : undefined
}

/** The part of a curve within a stretch of time, as a path; both ends are read on the line. */
export function curveWithin(
  times_h: readonly number[],
  values: readonly (number | null)[],
  { from_h, to_h }: Pick<DetailRegion, 'from_h' | 'to_h'>,
): readonly { readonly at_h: number; readonly value: number }[] {
  const inner = times_h.flatMap((at_h, index) => {
    const value = values[index]
    return value == null || at_h <= from_h || at_h >= to_h ? [] : [{ at_h, value }]
  })
  const end = (at_h: number) => {
    const value = readCurve(times_h, values, at_h)
    return value === null ? [] : [{ at_h, value }]
  }
  return [...end(from_h), ...inner, ...end(to_h)]
}
