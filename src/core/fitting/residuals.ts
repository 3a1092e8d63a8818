import type { Taken } from './readings.ts'

/** 99 % of a standard normal distribution. */
const RARE = 2.326

/**
 * Whether a sum of squares of so many standard normal numbers comes less than once in a hundred times.
 * Source: Wilson and Hilferty, Proc. Nat. Acad. Sci. 17 (1931) 684–688.
 */
export function improbable(sum: number, count: number): boolean {
  const c = 2 / (9 * count)
  return sum > count * (1 - c + RARE * Math.sqrt(c)) ** 3
}

const LEAST_FOR_SERIAL = 12

/** How far each residual resembles the one before it, 0 to 1: nothing where chance alone would give as much. */
export function serialShare(taken: readonly Taken[], residuals: Float64Array, weights: Float64Array): number {
  let products = 0
  let squares = 0
  let count = 0
  for (let i = 1; i < taken.length; i++) {
    if (taken[i]!.probe !== taken[i - 1]!.probe || weights[i] === 0 || weights[i - 1] === 0) continue
    products += residuals[i]! * residuals[i - 1]!
    squares += (residuals[i]! ** 2 + residuals[i - 1]! ** 2) / 2
    count++
  }
  if (count < LEAST_FOR_SERIAL || squares === 0) return 0
  const share = products / squares
  return share > 2 / Math.sqrt(count) ? Math.min(share, 0.95) : 0
}

/** From one reading on a probe reads as from another place. */
export interface Jump {
  readonly probe: string
  readonly at_h: number
  readonly shift_K: number
  /** Readings of its shorter part, to be left out. */
  readonly left: readonly number[]
}

/** Least readings on each side, least step in K, and in standard deviations of its mean. */
const JUMP_SIDES = 3
const JUMP_K = 1.5
const JUMP_SIGMA = 6

/** The largest step in the residuals of one probe; undefined where none stands out. */
export function findJump(taken: readonly Taken[], residuals: Float64Array, sigma_K: Float64Array): Jump | undefined {
  let best: (Jump & { readonly stands: number }) | undefined
  for (const probe of new Set(taken.map((reading) => reading.probe))) {
    const own = taken.flatMap((reading, index) => (reading.probe === probe ? [index] : []))
    for (let cut = JUMP_SIDES; cut <= own.length - JUMP_SIDES; cut++) {
      const [before, after] = [own.slice(0, cut), own.slice(cut)]
      const mean = (part: readonly number[]): number =>
        part.reduce((sum, index) => sum + residuals[index]! * sigma_K[index]!, 0) / part.length
      // What lies just beside the cut tells a step from a slow drift.
      const near = mean(after.slice(0, JUMP_SIDES)) - mean(before.slice(-JUMP_SIDES))
      const usual = sigma_K[own[cut]!]! * Math.sqrt(2 / JUMP_SIDES)
      const stands = Math.abs(near) / usual
      if (Math.abs(near) < JUMP_K || stands < JUMP_SIGMA || stands <= (best?.stands ?? 0)) continue
      best = {
        probe,
        at_h: taken[own[cut]!]!.at_h,
        shift_K: near,
        left: after.length < before.length ? after : before,
        stands,
      }
    }
  }
  return best
}
