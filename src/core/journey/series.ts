/** Curves over time: cubics between samples, and where they cross a level. */

/** Samples on each side that a slope looks at. */
const REACH = 2

/** Derivative at node `at` of the polynomial through nodes `from` to `to`. */
function derivative(x: ArrayLike<number>, y: ArrayLike<number>, from: number, to: number, at: number): number {
  let sum = 0
  for (let j = from; j <= to; j++) {
    if (j === at) continue
    // Weight of node j in the derivative of the Lagrange polynomial at node `at`.
    let weight = 1 / (x[j]! - x[at]!)
    for (let m = from; m <= to; m++) if (m !== j && m !== at) weight *= (x[at]! - x[m]!) / (x[j]! - x[m]!)
    sum += weight * (y[j]! - y[at]!)
  }
  return sum
}

/**
 * Slopes of the curve at its samples, fourth order where the course is even; held to three times the smaller of the
 * neighbouring secants, which keeps a cubic between two samples from swinging out (Fritsch and Carlson, SIAM J. Numer.
 * Anal. 17, 1980, 238–246). Shape: last − first + 1
 */
function slopesOf(x: ArrayLike<number>, y: ArrayLike<number>, first: number, last: number): Float64Array {
  const slopes = new Float64Array(last - first + 1)
  if (last === first) return slopes
  const secant = (i: number): number => (y[i + 1]! - y[i]!) / (x[i + 1]! - x[i]!)
  for (let i = first; i <= last; i++) {
    const slope = derivative(x, y, Math.max(first, i - REACH), Math.min(last, i + REACH), i)
    const left = Math.abs(secant(Math.max(first, i - 1)))
    const right = Math.abs(secant(Math.min(last - 1, i)))
    const limit = 3 * Math.min(left, right)
    slopes[i - first] = Math.min(Math.max(slope, -limit), limit)
  }
  return slopes
}

/**
 * A function through samples `first` to `last` of a curve; x strictly rising there. Exact at the samples, constant
 * outside.
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
