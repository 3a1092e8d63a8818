import { type MeanRate, meanRate } from '../mean-rate.ts'

/** J/(mol K) */
export const GAS_CONSTANT = 8.314462618
const ZERO_K = 273.15

/** A rate that grows with temperature by its activation energy; written about a reference, as k0 exp(−E/RT) loses digits. */
export function arrhenius(reference: number, reference_C: number, energy_J_mol: number): (T_C: number) => number {
  const cold = 1 / (reference_C + ZERO_K)
  return (T_C) => reference * Math.exp((-energy_J_mol / GAS_CONSTANT) * (1 / (T_C + ZERO_K) - cold))
}

/** Temperatures between which rates are tabulated, °C: no mass is warmer or colder. */
const RANGE_C = [-40, 300] as const
const STEP_K = 0.25

const made = new Map<string, MeanRate>()

/** The same with its means along straight pieces; laws of the same figures share one table. */
export function meanArrhenius(
  reference: number,
  reference_C: number,
  energy_J_mol: number,
  [low_C, high_C]: readonly [number, number] = RANGE_C,
): MeanRate {
  const key = `${reference} ${reference_C} ${energy_J_mol} ${low_C} ${high_C}`
  const known = made.get(key)
  if (known !== undefined) return known
  const rate = meanRate(arrhenius(reference, reference_C, energy_J_mol), low_C, high_C, STEP_K)
  made.set(key, rate)
  return rate
}
