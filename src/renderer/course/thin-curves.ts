import type { CurveValue } from './read-curve.ts'

/** A stretch between two kept points, with the point inside it that strays most from the straight line. */
interface Gap {
  readonly from: number
  readonly to: number
  readonly worst: number
  readonly error: number
}

/**
 * Indices of the points to draw, the same for all curves: both ends, both sides of every jump, the extremes and the
 * beginning of each curve, then whichever point strays most from the drawn lines, until none strays by more than
 * `enough` or `most` points are kept.
 */
export function thinCurves(
  times_h: readonly number[],
  curves: readonly (readonly CurveValue[])[],
  most = 300,
  enough = 0.05,
): readonly number[] {
  const last = times_h.length - 1
  if (last < 1) return times_h.map((_, index) => index)
  const must = [...new Set([0, last, ...jumps(times_h), ...curves.flatMap(landmarks)])].sort((a, b) => a - b)
  const gaps: Gap[] = []
  for (let index = 1; index < must.length; index++) gaps.push(gapOf(times_h, curves, must[index - 1]!, must[index]!))
  const kept = new Set(must)
  while (kept.size < most) {
    let worst = 0
    for (let index = 1; index < gaps.length; index++) if (gaps[index]!.error > gaps[worst]!.error) worst = index
    const gap = gaps[worst]
    if (!gap || gap.error <= enough) break
    kept.add(gap.worst)
    gaps[worst] = gapOf(times_h, curves, gap.from, gap.worst)
    gaps.push(gapOf(times_h, curves, gap.worst, gap.to))
  }
  return [...kept].sort((a, b) => a - b)
}

function jumps(times_h: readonly number[]): readonly number[] {
  return times_h.flatMap((time, index) => (index > 0 && times_h[index - 1] === time ? [index - 1, index] : []))
}

function landmarks(values: readonly CurveValue[]): readonly number[] {
  let [lowest, highest] = [-1, -1]
  const found: number[] = []
  for (let index = 0; index < values.length; index++) {
    const value = values[index] ?? null
    const before = index > 0 ? (values[index - 1] ?? null) : value
    if ((value === null) !== (before === null)) found.push(index - 1, index)
    if (value === null) continue
    if (lowest < 0 || value < values[lowest]!) lowest = index
    if (highest < 0 || value > values[highest]!) highest = index
  }
  return lowest < 0 ? found : [...found, lowest, highest]
}

function gapOf(times_h: readonly number[], curves: readonly (readonly CurveValue[])[], from: number, to: number): Gap {
  let [worst, error] = [from, 0]
  const span = times_h[to]! - times_h[from]!
  for (const values of curves) {
    const [first, final] = [values[from] ?? null, values[to] ?? null]
    if (first === null || final === null) continue
    for (let index = from + 1; index < to; index++) {
      const share = span === 0 ? 0 : (times_h[index]! - times_h[from]!) / span
      const strayed = Math.abs(values[index]! - (first + share * (final - first)))
      if (strayed > error) [worst, error] = [index, strayed]
    }
  }
  return { from, to, worst, error }
}
