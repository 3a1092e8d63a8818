import { toHours } from '../../units.ts'
import type { History } from '../cooling-rule.ts'
import { type MeanRate, meanRate } from '../mean-rate.ts'
import type { Organism } from './organisms.ts'

/*
 * Growth along a temperature history: rate by the product of what temperature, water activity and pH leave of the best
 * rate (Zwietering et al. 1992, gamma concept), growth by the model of Baranyi and Roberts (1994, Int. J. Food
 * Microbiol. 23, 277), which needs one number a place: A, the integral of the rate. Both from memory, checked against
 * figures of an independent program. Rates are natural logarithms per hour throughout.
 */

interface Cardinal {
  readonly min: number
  readonly opt: number
  readonly max: number
}

/**
 * What a temperature leaves of the best rate, 0 to 1; 0 outside the limits. Needs opt above the middle of min and max.
 * Source: Rosso, Lobry and Flandrois 1993, J. Theor. Biol. 162, 447 (from memory).
 */
export function cardinalShare(x: number, { min, opt, max }: Cardinal): number {
  if (x <= min || x >= max) return 0
  const above = (x - max) * (x - min) ** 2
  return above / ((opt - min) * ((opt - min) * (x - opt) - (opt - max) * (opt + min - 2 * x)))
}

/** What a water activity leaves of the best rate, 0 to 1. */
export function awShare(aw: number, { aw: limits }: Pick<Organism, 'aw'>): number {
  const { min, opt, form } = limits
  if (aw >= opt) return 1
  if (form === 'cardinal') return cardinalShare(aw, { min, opt, max: 1 })
  return Math.max(0, (aw - min) / (opt - min))
}

/** What a pH leaves of the rate at the pH of measurement, 0 to 1. Source: Rosso et al. 1995, Appl. Environ. Microbiol. 61, 610. */
export function pHShare(pH: number, { pH: limits }: Pick<Organism, 'pH'>): number {
  const share = (at: number): number => {
    const { min, opt, max } = limits
    if (at <= min || at >= max) return 0
    const part = (at - min) * (at - max)
    return part / (part - (at - opt) ** 2)
  }
  return Math.min(1, Math.max(0, share(pH) / share(limits.ref)))
}

/** Growth rate where neither water activity nor pH slows it, 1/h. */
export const bestRate = (organism: Organism, T_C: number): number =>
  organism.mu_opt_per_h * cardinalShare(T_C, organism.T_C)

const rates = new WeakMap<Organism, MeanRate>()

function rateOf(organism: Organism): MeanRate {
  const { min, max } = organism.T_C
  const made = rates.get(organism) ?? meanRate((T_C) => bestRate(organism, T_C), min, max)
  rates.set(organism, made)
  return made
}

/** The integral A of the rate along a history where neither water activity nor pH slows it. */
export const exposure = (organism: Organism, history: History): number => toHours(rateOf(organism).along(history))

/** The same, only of pieces whose middle lies between two temperatures. */
export function exposureWithin(
  organism: Organism,
  { t, T_C }: History,
  [low_C, high_C]: readonly [number, number],
): number {
  const rate = rateOf(organism)
  const { min, max } = organism.T_C
  let sum = 0
  for (let i = 1; i < t.length; i++) {
    const from = T_C[i - 1]!
    const to = T_C[i]!
    if ((from <= min && to <= min) || (from >= max && to >= max)) continue
    const middle = (from + to) / 2
    if (middle < low_C || middle > high_C) continue
    sum += rate.over(from, to) * (t[i]! - t[i - 1]!)
  }
  return toHours(sum)
}

/**
 * Growth in powers of ten after an exposure A.
 * @param h0  work that lag costs
 * @param room_log10  powers of ten until the mass is full; absent: no ceiling
 */
export function growthLog10(A: number, h0: number, room_log10?: number): number {
  const F = A + Math.log(Math.exp(-A) + Math.exp(-h0) - Math.exp(-A - h0))
  if (room_log10 === undefined) return Math.max(0, F / Math.LN10)
  const room = 10 ** room_log10
  return Math.max(0, Math.log10(room / (1 + (room - 1) * Math.exp(-F))))
}
