import { ZERO_C } from './air.ts'

/** Constant of Stefan and Boltzmann, W/(m² K⁴). */
export const STEFAN_BOLTZMANN = 5.670374419e-8

/**
 * Effective emissivity between a convex piece (1) and what encloses it (2): 1/(1/e1 + (A1/A2)(1/e2 − 1)).
 * @param share  area of the piece over that of the enclosure; 1 for two long faces opposite each other
 * Valid: grey, diffuse surfaces. Source: `incropera-6`, chapter 13; small piece: ex. 9.4.
 */
export function effectiveEmissivity(piece: number, enclosure: number, share: number): number {
  return 1 / (1 / piece + share * (1 / enclosure - 1))
}

/**
 * Long-wave exchange as a film coefficient, W/(m² K): e sigma (Ts + Tw)(Ts² + Tw²), so that q = h (Tw − Ts) is exact.
 * Source: Stefan and Boltzmann.
 */
export function radiativeFilm(emissivity: number, surface_C: number, walls_C: number): number {
  const Ts = surface_C + ZERO_C
  const Tw = walls_C + ZERO_C
  return emissivity * STEFAN_BOLTZMANN * (Ts + Tw) * (Ts * Ts + Tw * Tw)
}

/**
 * View factor between two equal rectangles `width` by `length` that face each other at `gap` (all m).
 * Valid: parallel, aligned. Source: `incropera-6`, table 13.2 (from memory).
 */
export function viewFactorFacingRectangles(width: number, length: number, gap: number): number {
  const X = width / gap
  const Y = length / gap
  const p = Math.sqrt(1 + X * X)
  const q = Math.sqrt(1 + Y * Y)
  const logarithm = Math.log(Math.sqrt(((1 + X * X) * (1 + Y * Y)) / (1 + X * X + Y * Y)))
  const angles = X * q * Math.atan(X / q) + Y * p * Math.atan(Y / p) - X * Math.atan(X) - Y * Math.atan(Y)
  return (2 / (Math.PI * X * Y)) * (logarithm + angles)
}

/** One of several surroundings that a face sees: a share of its view, at a temperature. */
export interface View {
  readonly share: number
  readonly T_C: number
}

/**
 * The one temperature whose radiation equals that of all that a face sees, °C: T⁴ is the mean by view.
 * @param views  shares add up to 1
 */
export function radiantMean(views: readonly View[]): number {
  const sum = views.reduce((total, { share, T_C }) => total + share * (T_C + ZERO_C) ** 4, 0)
  return sum ** 0.25 - ZERO_C
}
