/** A quantity over time: samples of one place or of the whole piece; a moment of sudden change may come twice. */
export interface History {
  /** s, never falling. Shape: samples */
  readonly t: ArrayLike<number>
  /** Shape: samples */
  readonly value: ArrayLike<number>
}

/** First sample after `t` in the stretch without repeated moments that holds `t`. */
function stretch(
  { t }: History,
  at: number,
): { readonly first: number; readonly last: number; readonly right: number } {
  let right = 1
  while (right < t.length - 1 && t[right]! < at) right++
  while (right < t.length - 1 && t[right]! === t[right - 1]!) right++
  let first = right - 1
  while (first > 0 && t[first - 1]! < t[first]!) first--
  let last = right
  while (last < t.length - 1 && t[last + 1]! > t[last]!) last++
  return { first, last, right }
}

/** Cubic through the four samples nearest to `at` that no sudden change divides, and its slope there. */
function cubic(history: History, at: number): { readonly value: number; readonly slope: number } {
  const { t, value } = history
  if (t.length === 1) return { value: value[0]!, slope: 0 }
  const { first, last, right } = stretch(history, at)
  const start = Math.min(Math.max(right - 2, first), Math.max(last - 3, first))
  const end = Math.min(start + 3, last)
  let sum = 0
  let slope = 0
  for (let i = start; i <= end; i++) {
    let term = value[i]!
    let turn = 0
    for (let j = start; j <= end; j++) {
      if (j === i) continue
      let part = value[i]! / (t[i]! - t[j]!)
      for (let m = start; m <= end; m++) if (m !== i && m !== j) part *= (at - t[m]!) / (t[i]! - t[m]!)
      turn += part
      term *= (at - t[j]!) / (t[i]! - t[j]!)
    }
    sum += term
    slope += turn
  }
  return { value: sum, slope }
}

/** The value at a moment, s. */
export const valueAt = (history: History, at: number): number => cubic(history, at).value

/** The rate of change at a moment, per s. */
export const slopeAt = (history: History, at: number): number => cubic(history, at).slope

/** Which way a history passes a level. */
export type Direction = 'rising' | 'falling'

function bisect(history: History, level: number, low: number, high: number): number {
  const below = valueAt(history, low) < level
  let a = low
  let b = high
  for (let pass = 0; pass < 60; pass++) {
    const middle = (a + b) / 2
    if (valueAt(history, middle) < level === below) a = middle
    else b = middle
  }
  return (a + b) / 2
}

/** Moments at which the history passes `level`, in one direction or in both, s. */
export function crossings(history: History, level: number, direction?: Direction): number[] {
  const { t, value } = history
  const found: number[] = []
  for (let i = 1; i < t.length; i++) {
    const before = value[i - 1]!
    const after = value[i]!
    const rising = before < level && after >= level
    const falling = before > level && after <= level
    if (!(rising || falling)) continue
    if (direction !== undefined && rising !== (direction === 'rising')) continue
    found.push(t[i]! === t[i - 1]! || after === level ? t[i]! : bisect(history, level, t[i - 1]!, t[i]!))
  }
  return found
}

/** Time spent from `low` to `high`, both included, s. */
export function timeWithin(history: History, low: number, high: number): number {
  const { t } = history
  const start = t[0]!
  const end = t[t.length - 1]!
  const stops = [start, ...crossings(history, low), ...crossings(history, high), end].sort((a, b) => a - b)
  let total = 0
  for (let i = 1; i < stops.length; i++) {
    const value = valueAt(history, (stops[i]! + stops[i - 1]!) / 2)
    if (value >= low && value <= high) total += stops[i]! - stops[i - 1]!
  }
  return total
}

/** Highest value and its moment, by a parabola through the highest sample and its neighbours. */
export function maximum({ t, value }: History): { readonly at: number; readonly value: number } {
  let top = 0
  for (let i = 1; i < t.length; i++) if (value[i]! > value[top]!) top = i
  const plain = { at: t[top]!, value: value[top]! }
  if (top === 0 || top === t.length - 1) return plain
  const a = t[top - 1]! - t[top]!
  const b = t[top + 1]! - t[top]!
  if (a === 0 || b === 0) return plain
  const ya = value[top - 1]! - value[top]!
  const yb = value[top + 1]! - value[top]!
  const curve = (ya / a - yb / b) / (a - b)
  const slope = ya / a - curve * a
  if (curve >= 0) return plain
  const shift = -slope / (2 * curve)
  return { at: t[top]! + shift, value: value[top]! + slope * shift + curve * shift * shift }
}

/** A repeating quantity's mean and first harmonic over one period: mean + cosine cos(ωt) + sine sin(ωt). */
export interface Harmonic {
  readonly mean: number
  readonly cosine: number
  readonly sine: number
}

/** Mean and first harmonic over the period that begins at `from`, a whole number of periods. */
export function harmonicOver(history: History, period: number, from: number): Harmonic {
  const points = 720
  let mean = 0
  let cosine = 0
  let sine = 0
  for (let i = 0; i < points; i++) {
    const phase = (2 * Math.PI * i) / points
    const value = valueAt(history, from + (period * i) / points)
    mean += value / points
    cosine += (2 * value * Math.cos(phase)) / points
    sine += (2 * value * Math.sin(phase)) / points
  }
  return { mean, cosine, sine }
}

/** Start of the last whole period of a history, s. */
export const lastPeriod = ({ t }: History, period: number): number =>
  (Math.floor(t[t.length - 1]! / period + 1e-9) - 1) * period

/** Mean, amplitude and lag of the first harmonic over the last whole period of a history. */
export function harmonic(
  history: History,
  period: number,
): { readonly mean: number; readonly amplitude: number; readonly lag: number } {
  const { mean, cosine, sine } = harmonicOver(history, period, lastPeriod(history, period))
  const turn = Math.atan2(sine, cosine)
  return {
    mean,
    amplitude: Math.hypot(cosine, sine),
    lag: (((turn + 2 * Math.PI) % (2 * Math.PI)) * period) / (2 * Math.PI),
  }
}
