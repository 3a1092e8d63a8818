import type { Forecast } from '../../core/forecast-types.ts'
import { drawingOrder, readingOrder } from './curve-style.ts'
import type { CurveValue } from './read-curve.ts'
import { thinCurves } from './thin-curves.ts'

/** One moment for the chart: `at_h`, then `curve0`, `band0`, … by the curve's place in `keys`. */
export type CourseRow = Readonly<Record<string, number | null | readonly [number, number]>>

/** A forecast's curves made ready to draw. */
export interface CourseModel {
  /** Keys of the forecast's curves in the order of reading. */
  readonly keys: readonly string[]
  /** Places in `keys`, from the back of the drawing to the front. */
  readonly backToFront: readonly number[]
  /** Places in `keys` of the curves that have an early-to-late band. */
  readonly banded: readonly number[]
  readonly rows: readonly CourseRow[]
  readonly from_h: number
  readonly to_h: number
  readonly lowest_C: number
  readonly highest_C: number
}

export const curveField = (index: number): string => `curve${index}`
export const bandField = (index: number): string => `band${index}`

/** @param bands  none where they are still to be computed */
export function courseModel({
  times_h,
  curves: byName,
  bands: bandsByName,
}: Pick<Forecast, 'times_h' | 'curves' | 'bands'>): CourseModel {
  const keys = readingOrder(Object.keys(byName))
  const curves = keys.map((key) => byName[key]!)
  const bands = keys.map((key) => bandsByName[key])
  const edges = bands.flatMap((band) => (band ? [band.low, band.high] : []))
  const kept = thinCurves(times_h, [...curves, ...edges])
  const rows = kept.map((moment): CourseRow => {
    const row: Record<string, number | null | readonly [number, number]> = { at_h: times_h[moment]! }
    keys.forEach((_, index) => {
      row[curveField(index)] = curves[index]![moment] ?? null
      const [low, high] = [bands[index]?.low[moment], bands[index]?.high[moment]]
      row[bandField(index)] = low == null || high == null ? null : [low, high]
    })
    return row
  })
  const [lowest_C, highest_C] = range([...curves, ...edges])
  return {
    keys,
    backToFront: drawingOrder(keys).map((key) => keys.indexOf(key)),
    banded: keys.flatMap((_, index) => (bands[index] ? [index] : [])),
    rows,
    from_h: times_h[0] ?? 0,
    to_h: times_h.at(-1) ?? 0,
    lowest_C,
    highest_C,
  }
}

function range(curves: readonly (readonly CurveValue[])[]): readonly [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const curve of curves) {
    for (const value of curve) {
      if (value === null) continue
      low = Math.min(low, value)
      high = Math.max(high, value)
    }
  }
  return low <= high ? [low, high] : [0, 1]
}
