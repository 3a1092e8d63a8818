/*
 * Published formulae for freezing times: a cross-check of the solver that shares nothing with it. SI units, °C.
 */

/** Bodies for which the formulae have coefficients. */
export type FreezingShape = 'slab' | 'cylinder' | 'sphere' | 'brick'

/** Shape factors of the formulae: the surface's and the inside's. */
export interface ShapeFactors {
  readonly P: number
  readonly R: number
}

/** Plank's factors; a brick needs the ratios of its longer sides to its shortest. */
const PLANK: Readonly<Record<Exclude<FreezingShape, 'brick'>, ShapeFactors>> = {
  slab: { P: 1 / 2, R: 1 / 8 },
  cylinder: { P: 1 / 4, R: 1 / 16 },
  sphere: { P: 1 / 6, R: 1 / 24 },
}

/**
 * Plank's factors of a brick D × b1 D × b2 D with 1 ≤ b1 ≤ b2.
 * Source: Plank (1941) as in ASHRAE Handbook – Refrigeration (from memory); its limits are the cube (1/6, 1/24), the
 * square rod (1/4, 1/16) and the slab (1/2, 1/8).
 */
export function plankBrick(b1: number, b2: number): ShapeFactors {
  const P = (b1 * b2) / (2 * (b1 * b2 + b1 + b2))
  const root = Math.sqrt((b1 - b2) * (b1 - 1) + (b2 - 1) ** 2)
  const r = (b1 + b2 + 1 + root) / 3
  const s = (b1 + b2 + 1 - root) / 3
  const term = (x: number): number => (x - 1) * (b1 - x) * (b2 - x) * Math.log(x / (x - 1))
  const R = (term(r) - term(s)) / (8 * root) + (2 * b1 + 2 * b2 - 1) / 72
  return { P, R }
}

/** Plank's factors of a shape; `b1` and `b2` are read for a brick only. */
export function plankFactors(shape: FreezingShape, b1 = 1, b2 = 1): ShapeFactors {
  return shape === 'brick' ? plankBrick(b1, b2) : PLANK[shape]
}

/** What freezes, and in what. */
export interface FreezingTask {
  readonly shape: FreezingShape
  /** Thickness or diameter, m; of a brick its shortest side. */
  readonly D: number
  readonly b1?: number
  readonly b2?: number
  /** W/(m² K), packaging included. */
  readonly h: number
  readonly air_C: number
  /** Temperature at the start and the one that the centre is to reach, °C. */
  readonly start_C: number
  readonly centre_C: number
}

/** Of the frozen and unfrozen mass. */
export interface FreezingMass {
  readonly freezes_C: number
  /** W/(m K), frozen */
  readonly k: number
  /** J/(m³ K), unfrozen and frozen */
  readonly unfrozen: number
  readonly frozen: number
  /** J/m³ */
  readonly latent: number
  /** J/m³ given off between the start of freezing and −10 °C. */
  readonly to10: number
}

/**
 * Plank's freezing time, s: a body at its freezing point, all latent heat there, none in the cooling.
 * Source: Plank (1913, 1941) as in ASHRAE Handbook – Refrigeration, cooling and freezing times of foods.
 */
export function plankTime(
  shape: FreezingShape,
  { D, h, k, latent, gap_K }: { D: number; h: number; k: number; latent: number; gap_K: number },
  b1 = 1,
  b2 = 1,
): number {
  const { P, R } = plankFactors(shape, b1, b2)
  return (latent / gap_K) * ((P * D) / h + (R * D * D) / k)
}

/**
 * Plank's factors widened for cooling before and after, by Stefan and Plank numbers.
 * Source: Cleland & Earle, J. Food Sci. 42 (1977) 1390, 44 (1979) 958 and 964, 49 (1984) 1034 (coefficients from memory).
 */
function clelandEarleFactors(
  shape: FreezingShape,
  Ste: number,
  Pk: number,
  Bi: number,
  b1: number,
  b2: number,
): ShapeFactors {
  switch (shape) {
    case 'slab':
      return {
        P: 0.5072 + 0.2018 * Pk + Ste * (0.3224 * Pk + 0.0105 / Bi + 0.0681),
        R: 0.1684 + Ste * (0.274 * Pk - 0.0135),
      }
    case 'cylinder':
      return {
        P: 0.3751 + 0.0999 * Pk + Ste * (0.4008 * Pk + 0.071 / Bi - 0.5865),
        R: 0.0133 + Ste * (0.0415 * Pk + 0.3957),
      }
    case 'sphere':
      return {
        P: 0.1084 + 0.0924 * Pk + Ste * (0.231 * Pk - 0.3114 / Bi + 0.6739),
        R: 0.0784 + Ste * (0.0386 * Pk - 0.1694),
      }
    case 'brick': {
      const plank = plankBrick(b1, b2)
      const P2 = plank.P * (1.026 + 0.5808 * Pk + Ste * (0.2296 * Pk + 0.0182 / Bi + 0.105))
      const R2 = plank.R * (1.202 + Ste * (3.41 * Pk + 0.7336))
      return {
        P: P2 + plank.P * (0.1136 + Ste * (5.766 * plank.P - 1.242)),
        R: R2 + plank.R * (0.7344 + Ste * (49.89 * plank.R - 2.9)),
      }
    }
  }
}

/**
 * Freezing time by the modified Plank equation, s.
 * Valid: about 0.15 < Ste < 0.35, 0.5 < Bi < 4.5, Pk < 0.55; uniform start, no heat made inside.
 * Source: as `clelandEarleFactors`.
 */
export function clelandEarleTime(task: FreezingTask, mass: FreezingMass): number {
  const { D, h, air_C, b1 = 1, b2 = 1 } = task
  const gap_K = mass.freezes_C - air_C
  const Ste = (mass.frozen * gap_K) / mass.to10
  const Pk = (mass.unfrozen * (task.start_C - mass.freezes_C)) / mass.to10
  const { P, R } = clelandEarleFactors(task.shape, Ste, Pk, (h * D) / mass.k, b1, b2)
  const plank = (mass.to10 / gap_K) * ((P * D) / h + (R * D * D) / mass.k)
  return plank * (1 - ((1.65 * Ste) / mass.k) * Math.log((task.centre_C - air_C) / (-10 - air_C)))
}

/**
 * Freezing time by Pham's method, s, for a body of equivalent heat transfer dimensionality `E` (1 slab, 2 endless
 * cylinder, 3 sphere).
 * Valid: about 0.02 < Bi < 11, 0.11 < Ste < 0.36, 0.03 < Pk < 0.61.
 * Source: Pham, J. Food Technol. 21 (1986) 209–219; coefficients as quoted from ASHRAE Handbook – Refrigeration.
 */
export function phamTime(task: Omit<FreezingTask, 'shape'>, mass: FreezingMass, E: number): number {
  const { D, h, air_C } = task
  const mean_C = 1.8 + 0.263 * task.centre_C + 0.105 * air_C
  const cooling = mass.unfrozen * (task.start_C - mean_C)
  const freezing = mass.latent + mass.frozen * (mean_C - task.centre_C)
  const first_K = (task.start_C + mean_C) / 2 - air_C
  const second_K = mean_C - air_C
  const Bi = (h * D) / mass.k
  return (D / (2 * E * h)) * (cooling / first_K + freezing / second_K) * (1 + Bi / 4)
}

/** Of the thawed and frozen mass. */
export interface ThawingMass {
  readonly freezes_C: number
  /** W/(m K), thawed */
  readonly k: number
  /** J/(m³ K), thawed and frozen */
  readonly unfrozen: number
  readonly frozen: number
  /** J/m³ taken up between −10 °C and the end of thawing. */
  readonly from10: number
}

/**
 * Thawing time until the centre is at 0 °C by the modified Plank equation, s, for a body of equivalent heat transfer
 * dimensionality `E` (1 slab, 2 endless cylinder, 3 sphere).
 * Valid: about 0.08 < Ste < 0.77, 0.3 < Bi < 41, 0.06 < Pk < 0.27 (from memory).
 * Source: Cleland, Cleland, Earle & Byrne, Int. J. Refrigeration 9 (1986) 220–228 (coefficients from memory).
 */
export function thawingTime(
  { D, h, air_C, start_C }: Omit<FreezingTask, 'shape' | 'centre_C'>,
  mass: ThawingMass,
  E: number,
): number {
  const Ste = (mass.unfrozen * (air_C - mass.freezes_C)) / mass.from10
  const Pk = (mass.frozen * (mass.freezes_C - start_C)) / mass.from10
  const Bi = (h * D) / mass.k
  const P = 0.7754 + 2.2828 * Ste * Pk
  const R = 0.4271 + 2.122 * Ste - 1.4847 * Ste ** 2
  return ((D * D * mass.unfrozen) / (mass.k * E * Ste)) * (P / (2 * Bi) + R / 8)
}

/**
 * Equivalent heat transfer dimensionality of a brick D × b1 D × b2 D.
 * Source: Cleland & Earle, Int. J. Refrigeration 5 (1982) 98; Cleland, Cleland & Earle, Int. J. Refrigeration 10 (1987)
 * 22–31, 32–39, 234–240 (from memory).
 * @param Bi  h D / k
 */
export function brickDimensionality(Bi: number, b1: number, b2: number): number {
  const X = (x: number): number => x / (Bi ** 1.34 + x)
  const near = X(2.32 / b1 ** 1.77)
  const far = X(2.32 / b2 ** 1.77)
  const E1 = near / b1 + (1 - near) * (0.73 / b1 ** 2.5)
  const E2 = far / b2 + (1 - far) * (0.5 / b2 ** 3.69)
  return 1 + E1 + E2
}
