/* How a law goes along one straight piece of a temperature history. */

/**
 * Cuts a piece into parts in which the temperature moves by no more than `widest` kelvin, and takes each at its middle.
 * For laws whose values have a closed form at one temperature, so that a part may last as long as it likes.
 */
export function byTemperature(
  from_C: number,
  to_C: number,
  dt: number,
  widest: number,
  step: (T_C: number, dt: number, from_C: number, to_C: number) => void,
): void {
  const parts = Math.max(1, Math.ceil(Math.abs(to_C - from_C) / widest))
  for (let i = 0; i < parts; i++) {
    const a = from_C + ((to_C - from_C) * i) / parts
    const b = from_C + ((to_C - from_C) * (i + 1)) / parts
    step((a + b) / 2, dt / parts, a, b)
  }
}

/** Cuts a piece where it passes one of some levels. */
export function byLevels(
  from_C: number,
  to_C: number,
  dt: number,
  levels: readonly number[],
  step: (from_C: number, to_C: number, dt: number) => void,
): void {
  const rising = to_C > from_C
  const low = rising ? from_C : to_C
  const high = rising ? to_C : from_C
  let passes = false
  for (let i = 0; i < levels.length; i++) if (levels[i]! > low && levels[i]! < high) passes = true
  if (!passes) {
    step(from_C, to_C, dt)
    return
  }
  const cuts = levels.filter((level) => level > low && level < high).sort((a, b) => (rising ? a - b : b - a))
  let at = from_C
  for (const cut of [...cuts, to_C]) {
    step(at, cut, (dt * Math.abs(cut - at)) / Math.abs(to_C - from_C))
    at = cut
  }
}

/** Value at `x` on straight lines between points, held beyond the ends. */
export function onLines(points: readonly (readonly [number, number])[], x: number): number {
  const [first, last] = [points[0]!, points[points.length - 1]!]
  if (x <= first[0]) return first[1]
  if (x >= last[0]) return last[1]
  const after = points.findIndex(([at]) => at > x)
  const [x0, y0] = points[after - 1]!
  const [x1, y1] = points[after]!
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0)
}

/**
 * A function of temperature out of a table, straight lines between its nodes and held beyond its ends: for what is asked
 * at every step of every place.
 * @param step  between two nodes, K; corners of the function belong on nodes
 */
export function tabulated(
  of: (T_C: number) => number,
  low_C: number,
  high_C: number,
  step: number,
): (T_C: number) => number {
  const last = Math.round((high_C - low_C) / step)
  const table = Float64Array.from({ length: last + 1 }, (_, i) => of(low_C + i * step))
  return (T_C) => {
    const at = (T_C - low_C) / step
    if (at <= 0) return table[0]!
    if (at >= last) return table[last]!
    const i = Math.floor(at)
    return table[i]! + (at - i) * (table[i + 1]! - table[i]!)
  }
}

export const clamp = (x: number, low: number, high: number): number => Math.min(Math.max(x, low), high)

/**
 * A value that goes after its balance at a rate, while the balance itself moves straight from one value to another:
 * exact, however long it takes.
 */
export function relax(value: number, balance: number, balanceAfter: number, rate: number, dt: number): number {
  if (rate <= 0 || dt <= 0) return value
  const lag = (balanceAfter - balance) / (rate * dt)
  return balanceAfter - lag + (value - balance + lag) * Math.exp(-rate * dt)
}
