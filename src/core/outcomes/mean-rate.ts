import type { History } from './cooling-rule.ts'

/*
 * Means of a rate that depends on temperature alone, over a straight piece of a temperature history: the integral of
 * the rate over temperature is tabulated once, so that a piece of any length costs two look-ups. Between nodes the
 * integral is a cubic with the rate as its slope, so its error falls with the fourth power of the step.
 */

/** A rate, and its mean where the temperature goes straight from one value to another. Unit as that of the rate. */
export interface MeanRate {
  at(T_C: number): number
  over(from_C: number, to_C: number): number
  /** Its integral over the time of a history of straight pieces: each sample is looked up once. */
  along(history: History): number
}

/** Nearer than this the rate halfway stands for the mean, K: the difference of two integrals would lose digits. */
const NEAR_K = 1e-3

/**
 * Tabulates a rate between two temperatures; beyond them it keeps its end value. Corners of the rate must lie on the
 * ends or on nodes.
 * @param step  widest step of the table, K
 */
export function meanRate(rate: (T_C: number) => number, low_C: number, high_C: number, step = 0.1): MeanRate {
  const nodes = Math.max(1, Math.ceil((high_C - low_C) / step))
  const h = (high_C - low_C) / nodes
  const slope = Float64Array.from({ length: nodes + 1 }, (_, i) => rate(low_C + i * h))
  const sum = new Float64Array(nodes + 1)
  for (let i = 0; i < nodes; i++)
    sum[i + 1] = sum[i]! + (h / 6) * (slope[i]! + 4 * rate(low_C + (i + 0.5) * h) + slope[i + 1]!)

  const integral = (T_C: number): number => {
    if (T_C <= low_C) return (T_C - low_C) * slope[0]!
    if (T_C >= high_C) return sum[nodes]! + (T_C - high_C) * slope[nodes]!
    const i = Math.min(nodes - 1, Math.floor((T_C - low_C) / h))
    const s = (T_C - low_C) / h - i
    const r = 1 - s
    return (
      sum[i]! * r * r * (1 + 2 * s) +
      sum[i + 1]! * s * s * (3 - 2 * s) +
      h * s * r * (slope[i]! * r - slope[i + 1]! * s)
    )
  }
  const at = (T_C: number): number => {
    if (T_C <= low_C) return slope[0]!
    if (T_C >= high_C) return slope[nodes]!
    const i = Math.min(nodes - 1, Math.floor((T_C - low_C) / h))
    const s = (T_C - low_C) / h - i
    const r = 1 - s
    // Slope of the cubic above.
    return (6 * s * r * (sum[i + 1]! - sum[i]!)) / h + slope[i]! * r * (1 - 3 * s) + slope[i + 1]! * s * (3 * s - 2)
  }
  return {
    at,
    over: (from_C, to_C) =>
      Math.abs(to_C - from_C) < NEAR_K
        ? at((from_C + to_C) / 2)
        : (integral(to_C) - integral(from_C)) / (to_C - from_C),
    along: ({ t, T_C }) => {
      let total = 0
      let from_C = T_C[0]!
      let before = integral(from_C)
      for (let i = 1; i < t.length; i++) {
        const to_C = T_C[i]!
        const after = integral(to_C)
        const mean = Math.abs(to_C - from_C) < NEAR_K ? at((from_C + to_C) / 2) : (after - before) / (to_C - from_C)
        total += mean * (t[i]! - t[i - 1]!)
        from_C = to_C
        before = after
      }
      return total
    },
  }
}
