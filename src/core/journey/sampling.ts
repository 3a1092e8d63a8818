import { runs, smooth } from './series.ts'

/** Straight lines between the chosen moments stay this close to every curve, K. */
const WITHIN_K = 0.045
const DEEPEST = 6

/** Moments with the values of all curves, in rows. */
interface Rows {
  readonly at: number[]
  /** Shape: moments × curves, row-major */
  readonly values: number[]
}

/**
 * Moments at which a set of curves has to be given so that straight lines between them suffice; every run of rising
 * time keeps its two ends.
 * @param t  Shape: samples
 * @param curves  Shape: curves × samples; a curve may begin late with NaN
 */
export function sampleCurves(t: Float64Array, curves: readonly Float64Array[]): { t: number[]; curves: number[][] } {
  const times: number[] = []
  const columns: number[][] = curves.map(() => [])
  const width = curves.length
  for (const { first, last } of runs(t)) {
    const dense = densify(
      t,
      curves.map((curve) => smooth(t, curve, first, last)),
      first,
      last,
    )
    for (const index of thin(dense, width)) {
      times.push(dense.at[index]!)
      for (let c = 0; c < width; c++) columns[c]!.push(dense.values[index * width + c]!)
    }
  }
  return { t: times, curves: columns }
}

/** The samples of a run and, where a curve bends between them, moments halfway, again and again. */
function densify(t: Float64Array, readers: readonly ((at: number) => number)[], first: number, last: number): Rows {
  const width = readers.length
  const rows: Rows = { at: [], values: [] }
  const push = (at: number, row: Float64Array): void => {
    rows.at.push(at)
    for (let c = 0; c < width; c++) rows.values.push(row[c]!)
  }
  const read = (at: number): Float64Array => {
    const row = new Float64Array(width)
    for (let c = 0; c < width; c++) row[c] = readers[c]!(at)
    return row
  }
  const divide = (from: number, rowFrom: Float64Array, to: number, rowTo: Float64Array, depth: number): void => {
    const middle = (from + to) / 2
    const row = read(middle)
    let bent = false
    for (let c = 0; c < width && !bent; c++) bent = Math.abs(row[c]! - (rowFrom[c]! + rowTo[c]!) / 2) > WITHIN_K / 4
    if (bent && depth < DEEPEST) {
      divide(from, rowFrom, middle, row, depth + 1)
      divide(middle, row, to, rowTo, depth + 1)
    } else {
      push(middle, row)
      push(to, rowTo)
    }
  }
  let before = read(t[first]!)
  push(t[first]!, before)
  for (let i = first; i < last; i++) {
    const after = read(t[i + 1]!)
    divide(t[i]!, before, t[i + 1]!, after, 0)
    before = after
  }
  return rows
}

/** Indices to keep so that straight lines between them pass all others within the bound. */
function thin({ at, values }: Rows, width: number): number[] {
  const kept = [0]
  let from = 0
  // Steepest and flattest slope, per curve, that passes all points seen since the last kept one.
  const low = new Float64Array(width).fill(Number.NEGATIVE_INFINITY)
  const high = new Float64Array(width).fill(Number.POSITIVE_INFINITY)
  const slope = (i: number, c: number): number =>
    (values[i * width + c]! - values[from * width + c]!) / (at[i]! - at[from]!)
  for (let i = 1; i < at.length; i++) {
    let fits = true
    for (let c = 0; c < width && fits; c++) {
      const own = slope(i, c)
      // A curve that hasn't begun (NaN) asks for nothing.
      fits = !(own < low[c]! || own > high[c]!)
    }
    if (!fits) {
      from = i - 1
      kept.push(from)
      low.fill(Number.NEGATIVE_INFINITY)
      high.fill(Number.POSITIVE_INFINITY)
    }
    const reach = at[i]! - at[from]!
    for (let c = 0; c < width; c++) {
      const own = slope(i, c)
      if (Number.isNaN(own)) continue
      low[c] = Math.max(low[c]!, own - WITHIN_K / reach)
      high[c] = Math.min(high[c]!, own + WITHIN_K / reach)
    }
  }
  if (kept[kept.length - 1] !== at.length - 1) kept.push(at.length - 1)
  return kept
}
