/*
 * Simpler laws of freezing foods from the handbooks, beside the model's own: for cross-checks, never for a forecast.
 * They were made on meat, fish and fruit and go wrong on sugar-rich creams.
 */

import type { Solution } from './freezing.ts'
import { WATER_KG_MOL } from './freezing.ts'

const GAS_CONSTANT = 8.314462
const ZERO_K = 273.15
const FUSION_J_KG = 333_550

/** Freezing point by the linear law of dilute solutions, °C. */
export function freezingPointLinear({ solutes, solvent }: Solution): number {
  return -((GAS_CONSTANT * ZERO_K ** 2) / FUSION_J_KG) * (solutes / solvent)
}

/** Freezing point by Raoult's law, °C. */
export function freezingPointRaoult({ solutes, solvent }: Solution): number {
  const n = solvent / WATER_KG_MOL
  const inverse = 1 / ZERO_K - (GAS_CONSTANT / (WATER_KG_MOL * FUSION_J_KG)) * Math.log(n / (n + solutes))
  return 1 / inverse - ZERO_K
}

/** Ice, kg/kg. @param water @param bound  kg/kg. Source: Miles 1974 in `ashrae-2006`. */
export function iceMiles(water: number, bound: number, freezes_C: number, T_C: number): number {
  return T_C >= freezes_C ? 0 : (water - bound) * (1 - freezes_C / T_C)
}

/** Ice, kg/kg. Valid: meats, −45 °C to a freezing point of −2 to −0.4 °C. Source: Tchigeov 1979 in `ashrae-2006`. */
export function iceTchigeov(water: number, freezes_C: number, T_C: number): number {
  return T_C >= freezes_C ? 0 : (1.105 * water) / (1 + 0.7138 / Math.log(freezes_C - T_C + 1))
}

/** What Chen's enthalpy needs. */
export interface ChenFood {
  /** Dry matter, water and bound water, kg/kg. */
  readonly solids: number
  readonly water: number
  readonly bound: number
  readonly freezes_C: number
  /** J/kg */
  readonly fusion: number
}

/** Enthalpy, J/kg, zero at −40 °C. Source: Chen 1985 in `ashrae-2006`. */
export function enthalpyChen(food: ChenFood, T_C: number): number {
  const reference_C = -40
  const frozen = (T: number): number =>
    (T - reference_C) *
    (1550 + 1260 * food.solids - ((food.water - food.bound) * food.fusion * food.freezes_C) / (reference_C * T))
  if (T_C <= food.freezes_C) return frozen(T_C)
  return frozen(food.freezes_C) + (T_C - food.freezes_C) * (4190 - 2300 * food.solids - 628 * food.solids ** 3)
}
