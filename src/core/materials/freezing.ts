/*
 * Freezing of the water of a mass from its solutes: Norrish's water activity of the unfrozen solution meets that of
 * ice. Eutectics, sugar crystals that form on freezing and the glassy state are left out; freezing ends at −34 °C.
 */

/** kg/mol */
export const WATER_KG_MOL = 0.01801528

/** −ln(water activity of ice) = a θ + b θ², θ = −T_C. Source: `ferro-fontan-chirife-1981` (from memory). */
const ICE_A = 9.6934e-3
const ICE_B = 4.761e-6

/**
 * Where the unfrozen solution is so strong that ice stops growing, °C: sucrose masses. Lactose lies at −28, glucose
 * and fructose at −42 to −46, starch pastes at −10 to −15 °C. Source: `roos-1995`, `levine-slade-1988` (from memory).
 */
export const FREEZING_ENDS_C = -34

/** The watery part of 1 kg of a mass. */
export interface Solution {
  /** Water that can freeze, kg: the mass's water less what protein and starch hold. */
  readonly solvent: number
  /** All dissolved particles, mol. */
  readonly solutes: number
  /** Sum of √K × mol over the solutes, K Norrish's (positive) constant. */
  readonly norrish: number
}

/** −ln of the water activity when `water` kg of the solvent are still liquid. Falls as `water` grows. */
function logActivity(solution: Solution, water: number): number {
  const n = water / WATER_KG_MOL
  const all = n + solution.solutes
  return Math.log(all / n) + (solution.norrish / all) ** 2
}

/** Water activity of the unfrozen mass, 0 to 1; 1 without solutes. */
export function waterActivity(solution: Solution): number {
  return Math.exp(-logActivity(solution, solution.solvent))
}

/** −ln of the water activity of ice. */
function iceLogActivity(T_C: number): number {
  return -T_C * (ICE_A - T_C * ICE_B)
}

/** Water activity of ice, and of the mass whose first ice forms there, 0 to 1. */
export const iceActivity = (T_C: number): number => Math.exp(-iceLogActivity(T_C))

/**
 * The solution with as many further ideal particles as its measured freezing point tells of: food tables leave out
 * some of what is dissolved. Fewer particles than known are never assumed.
 */
export function solutionFreezingAt(solution: Solution, freezes_C: number): Solution {
  const y = iceLogActivity(freezes_C)
  let low = solution.solutes
  let high = low + (2 * y * solution.solvent) / WATER_KG_MOL
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2
    if (logActivity({ ...solution, solutes: middle }, solution.solvent) < y) low = middle
    else high = middle
  }
  return { ...solution, solutes: low }
}

/** Temperature at which ice has the water activity exp(−y), °C. */
function iceTemperature(y: number): number {
  return -(-ICE_A + Math.sqrt(ICE_A * ICE_A + 4 * ICE_B * y)) / (2 * ICE_B)
}

/** Temperature at which the first ice forms, °C. Source: `norrish-1966` (from memory), single-solute form `baeza-2010`. */
export function freezingPoint(solution: Solution): number {
  return iceTemperature(logActivity(solution, solution.solvent))
}

/**
 * Water still liquid at a temperature, kg per kg of mass, and its slope, kg/(kg K). Below the end of freezing both are
 * those of the end: nothing freezes any more.
 */
export interface Unfrozen {
  readonly water: number
  readonly slope: number
}

/** Solves the meeting of solution and ice for the unfrozen water: Newton's steps, kept inside a shrinking bracket. */
export function unfrozenWater(solution: Solution, T_C: number, freezes_C = freezingPoint(solution)): Unfrozen {
  if (T_C >= freezes_C) return { water: solution.solvent, slope: 0 }
  const theta = -Math.max(T_C, FREEZING_ENDS_C)
  const y = iceLogActivity(-theta)
  const N = solution.solutes
  const S2 = solution.norrish ** 2
  let low = 0
  let high = solution.solvent / WATER_KG_MOL
  let n = Math.min(high, N / y)
  let fall = 1
  for (let i = 0; i < 60; i++) {
    const all = n + N
    const miss = Math.log(all / n) + S2 / (all * all) - y
    fall = -N / (n * all) - (2 * S2) / (all * all * all)
    if (miss > 0) low = n
    else high = n
    const next = n - miss / fall
    // Newton's next miss is the square of this one: below rounding.
    if (Math.abs(next - n) <= 1e-9 * n) {
      n = next
      break
    }
    n = next > low && next < high ? next : (low + high) / 2
  }
  const slope = T_C < FREEZING_ENDS_C ? 0 : (WATER_KG_MOL * -(ICE_A + 2 * ICE_B * theta)) / fall
  return { water: n * WATER_KG_MOL, slope }
}
