import { clamp, onLines, relax, tabulated } from './pieces.ts'

/* What chocolate in temper and out of it have in common. */

/** Solid share of cocoa butter, form V. Source: Beckett 2009; Torbica et al. 2006 (from memory). */
const formV = [
  [5, 0.88],
  [10, 0.86],
  [15, 0.81],
  [20, 0.76],
  [25, 0.7],
  [27.5, 0.6],
  [30, 0.45],
  [32.5, 0.12],
  [34, 0.02],
  [35, 0.01],
  [37, 0],
] as const
/** The same at any temperature, °C; the table's nodes hold every one of its points. */
export const formVAt = tabulated((T_C) => onLines(formV, T_C), 5, 37, 0.5)
/** Solid share at 20 °C, which counts as set through. */
export const FULL = 0.76
/** Where form V melts, °C. Source: Wille and Lutton 1966 (seen as quoted). */
export const FORM_V_C = 33.8
/** Chocolate laid colder than this is solid already, °C. */
export const LIQUID_C = 26
/** Shares of full solidity from which it is set, and below which it is lost (choice). */
export const SET = 0.85
export const LOST = 0.8

/** Rate of crystallising over what it is at 16 °C for form V. */
export const eagerness = (T_C: number, melts_C: number): number => clamp((melts_C - T_C) / 17.8, 0, 1.34)

/**
 * Moves a solid share towards what is in balance, which goes straight from one value to another meanwhile: by the rate
 * of crystallising up, by that of melting down.
 */
export function crystallise(
  solid: number,
  balance: number,
  balanceAfter: number,
  rate: number,
  melting: number,
  dt: number,
): number {
  const speed = solid < (balance + balanceAfter) / 2 ? rate : 1 / melting
  return relax(solid, balance, balanceAfter, speed, dt)
}
