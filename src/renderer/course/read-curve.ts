/** A value of a curve that may not have begun; a curve is null before its layer is there. */
export type CurveValue = number | null

/** Index of the last moment that is not after `at_h`; where a moment stands twice (a jump), the later entry. */
export function indexAt(times_h: readonly number[], at_h: number): number {
  let [low, high] = [0, times_h.length - 1]
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (times_h[middle]! <= at_h) low = middle
    else high = middle - 1
  }
  return low
}

/** The curve's value at a moment, on the straight line between its points; null outside its own time. */
export function readCurve(times_h: readonly number[], values: readonly CurveValue[], at_h: number): CurveValue {
  const before = indexAt(times_h, at_h)
  const from = values[before] ?? null
  if (from === null || before === times_h.length - 1) return from
  const to = values[before + 1] ?? null
  const span = times_h[before + 1]! - times_h[before]!
  if (to === null || span === 0) return from
  const share = Math.min(1, Math.max(0, (at_h - times_h[before]!) / span))
  return from + share * (to - from)
}

/** A stretch of time. Hours since the start. */
export interface Stay {
  readonly from_h: number
  readonly to_h: number
}

/** The stretches in which a curve lies between two values, both included. */
export function staysBetween(
  times_h: readonly number[],
  values: readonly CurveValue[],
  low: number,
  high: number,
): readonly Stay[] {
  const stays: Stay[] = []
  for (let index = 1; index < times_h.length; index++) {
    const [from, to] = [values[index - 1], values[index]]
    if (from == null || to == null) continue
    const part = partBetween(from, to, low, high)
    if (!part) continue
    const [start, span] = [times_h[index - 1]!, times_h[index]! - times_h[index - 1]!]
    const stay = { from_h: start + part[0] * span, to_h: start + part[1] * span }
    const last = stays.at(-1)
    if (last && stay.from_h <= last.to_h + 1e-9) stays[stays.length - 1] = { from_h: last.from_h, to_h: stay.to_h }
    else stays.push(stay)
  }
  return stays.filter((stay) => stay.to_h > stay.from_h)
}

/** The shares of a straight line from one value to another at which it enters and leaves the band. */
function partBetween(from: number, to: number, low: number, high: number): readonly [number, number] | undefined {
  if (from === to) return from >= low && from <= high ? [0, 1] : undefined
  const [a, b] = [(low - from) / (to - from), (high - from) / (to - from)]
  const [enter, leave] = [Math.max(0, Math.min(a, b)), Math.min(1, Math.max(a, b))]
  return enter <= leave ? [enter, leave] : undefined
}

export const totalOf = (stays: readonly Stay[]): number => stays.reduce((sum, stay) => sum + stay.to_h - stay.from_h, 0)
