import { runs, smooth } from './series.ts'

/** Straight lines between the chosen moments stay this close to every curve, K. */
const WITHIN_K = 0.045
const DEEPEST = 6

/**
 * Moments at which a set of curves has to be given so that straight lines between them suffice; every run of rising
 * time keeps its two ends.
 * @param t  Shape: samples
 * @param curves  Shape: curves × samples; a curve may begin late with NaN
 */
export function sampleCurves(t: Float64Array, curves: readonly Float64Array[]): { t: number[]; curves: number[][] } {
  const times: number[] = []
  const values: number[][] = curves.map(() => [])
  for (const { first, last } of runs(t)) {
    const readers = curves.map((curve) => smooth(t, curve, first, last))
    const read = (at: number): number[] => readers.map((reader) => reader(at))
    const dense: { at: number; row: number[] }[] = [{ at: t[first]!, row: read(t[first]!) }]
    const divide = (from: number, rowFrom: number[], to: number, rowTo: number[], depth: number): void => {
      const middle = (from + to) / 2
      const row = read(middle)
      const bent = row.some((value, i) => Math.abs(value - (rowFrom[i]! + rowTo[i]!) / 2) > WITHIN_K / 4)
      if (bent && depth < DEEPEST) {
        divide(from, rowFrom, middle, row, depth + 1)
        divide(middle, row, to, rowTo, depth + 1)
      } else {
        dense.push({ at: middle, row }, { at: to, row: rowTo })
      }
    }
    for (let i = first; i < last; i++) divide(t[i]!, read(t[i]!), t[i + 1]!, read(t[i + 1]!), 0)
    for (const index of thin(dense)) {
      times.push(dense[index]!.at)
      for (const [i, value] of dense[index]!.row.entries()) values[i]!.push(value)
    }
  }
  return { t: times, curves: values }
}

/** Indices to keep so that straight lines between them pass all others within the bound. */
function thin(points: readonly { readonly at: number; readonly row: readonly number[] }[]): number[] {
  const kept = [0]
  let from = 0
  // Widest and narrowest slope, per curve, that passes all points seen since the last kept one.
  const width = points[0]!.row.length
  let low = new Array<number>(width).fill(Number.NEGATIVE_INFINITY)
  let high = new Array<number>(width).fill(Number.POSITIVE_INFINITY)
  for (let i = 1; i < points.length; i++) {
    const start = points[from]!
    const span = points[i]!.at - start.at
    const slopes = points[i]!.row.map((value, c) => (value - start.row[c]!) / span)
    const fits = slopes.every((slope, c) => Number.isNaN(slope) || (slope >= low[c]! && slope <= high[c]!))
    if (!fits) {
      from = i - 1
      kept.push(from)
      low = new Array<number>(width).fill(Number.NEGATIVE_INFINITY)
      high = new Array<number>(width).fill(Number.POSITIVE_INFINITY)
    }
    const origin = points[from]!
    const reach = points[i]!.at - origin.at
    for (let c = 0; c < width; c++) {
      const slope = (points[i]!.row[c]! - origin.row[c]!) / reach
      if (Number.isNaN(slope)) continue
      low[c] = Math.max(low[c]!, slope - WITHIN_K / reach)
      high[c] = Math.min(high[c]!, slope + WITHIN_K / reach)
    }
  }
  if (kept[kept.length - 1] !== points.length - 1) kept.push(points.length - 1)
  return kept
}
