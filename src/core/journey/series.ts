/** Curves over time: monotone cubics between samples, crossings, and thinning. */

/** Slopes of the monotone cubic (Fritsch and Carlson) through the samples. Shape: as x */
function slopesOf(x: ArrayLike<number>, y: ArrayLike<number>, first: number, last: number): Float64Array {
  const slopes = new Float64Array(last - first + 1)
  if (last === first) return slopes
  const secant = (i: number): number => (y[i + 1]! - y[i]!) / (x[i + 1]! - x[i]!)
  slopes[0] = secant(first)
  slopes[last - first] = secant(last - 1)
  for (let i = first + 1; i < last; i++) {
    const left = secant(i - 1)
    const right = secant(i)
    if (left * right <= 0) continue
    const hl = x[i]! - x[i - 1]!
    const hr = x[i + 1]! - x[i]!
    const w1 = 2 * hr + hl
    const w2 = hr + 2 * hl
    slopes[i - first] = (w1 + w2) / (w1 / left + w2 / right)
  }
  return slopes
}

/**
 * A function through samples `first` to `last` of a curve; x strictly rising there. Exact at the samples, never beyond
 * the two that enclose it; constant outside.
 */
export function smooth(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  first: number,
  last: number,
): (at: number) => number {
  const slopes = slopesOf(x, y, first, last)
  return (at) => {
    if (!(at > x[first]!)) return y[first]!
    if (at >= x[last]!) return y[last]!
    let low = first
    let high = last
    while (high - low > 1) {
      const middle = (low + high) >> 1
      if (x[middle]! <= at) low = middle
      else high = middle
    }
    const h = x[high]! - x[low]!
    const s = (at - x[low]!) / h
    const r = 1 - s
    return (
      y[low]! * r * r * (1 + 2 * s) +
      y[high]! * s * s * (1 + 2 * r) +
      h * s * r * (slopes[low - first]! * r - slopes[high - first]! * s)
    )
  }
}

/** First and last index of every run of strictly rising x: a doubled moment begins a new run. */
export function runs(x: ArrayLike<number>): { readonly first: number; readonly last: number }[] {
  const found: { first: number; last: number }[] = []
  let first = 0
  for (let i = 1; i <= x.length; i++) {
    if (i === x.length || !(x[i]! > x[i - 1]!)) {
      if (x.length > 0) found.push({ first, last: i - 1 })
      first = i
    }
  }
  return found
}

/** Moments at which a curve passes `level`, with the direction; each found on the smooth curve by bisection. */
export function crossings(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  level: number,
): { readonly at: number; readonly rising: boolean }[] {
  const found: { at: number; rising: boolean }[] = []
  for (const { first, last } of runs(x)) {
    const curve = smooth(x, y, first, last)
    for (let i = first; i < last; i++) {
      const before = y[i]! - level
      const after = y[i + 1]! - level
      if (Number.isNaN(before) || Number.isNaN(after) || before === 0 || before * after > 0) continue
      if (after === 0 && i + 1 < last && before * (y[i + 2]! - level) >= 0) continue
      let low = x[i]!
      let high = x[i + 1]!
      for (let pass = 0; pass < 60; pass++) {
        const middle = (low + high) / 2
        if ((curve(middle) - level) * before > 0) low = middle
        else high = middle
      }
      found.push({ at: (low + high) / 2, rising: after > before })
    }
    // A jump at a doubled moment (something was poured or taken off) passes the level at that moment.
    if (last + 1 < x.length) {
      const before = y[last]! - level
      const after = y[last + 1]! - level
      if (before * after < 0) found.push({ at: x[last]!, rising: after > before })
    }
  }
  return found
}
