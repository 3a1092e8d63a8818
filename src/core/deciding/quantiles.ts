/** What 5, 50 and 95 % of the runs stay below. */
export interface Quantiles {
  readonly p5: number
  readonly p50: number
  readonly p95: number
}

/**
 * A quantile of sorted values, straight between them (type 7 of Hyndman and Fan, The American Statistician 50 (1996)
 * 361–365); infinite where it falls on what never came.
 */
export function quantileOf(sorted: Float64Array, share: number): number {
  const at = share * (sorted.length - 1)
  const below = sorted[Math.floor(at)]!
  const above = sorted[Math.ceil(at)]!
  return below === above ? below : below + (above - below) * (at - Math.floor(at))
}

/** 5, 50 and 95 % of values in any order. */
export function quantilesOf(values: Float64Array): Quantiles {
  const sorted = Float64Array.from(values).sort()
  return { p5: quantileOf(sorted, 0.05), p50: quantileOf(sorted, 0.5), p95: quantileOf(sorted, 0.95) }
}
