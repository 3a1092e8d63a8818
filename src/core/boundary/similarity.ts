import { GRAVITY } from './air.ts'

/* The numbers that film laws are written in. Lengths in m, speeds in m/s, the rest SI. */

/** What a fluid tells the film laws. */
export interface Fluid {
  /** Kinematic viscosity, m²/s. */
  readonly nu: number
  /** Conductivity, W/(m K). */
  readonly k: number
  readonly Pr: number
}

/**
 * Rayleigh number, from the relative difference in density that lifts the fluid.
 * @param contrast  |rho_a − rho_s| over their mean; beta ΔT for a dry gas
 */
export function rayleigh({ nu, Pr }: Fluid, contrast: number, length: number): number {
  return (GRAVITY * contrast * length ** 3 * Pr) / nu ** 2
}

/** Reynolds number. */
export function reynolds({ nu }: Fluid, speed: number, length: number): number {
  return (speed * length) / nu
}

/** Film coefficient from a Nusselt number, W/(m² K). */
export function filmOf(Nu: number, { k }: Fluid, length: number): number {
  return (Nu * k) / length
}

/** Relative difference of two densities, against their mean. */
export function densityContrast(one: number, other: number): number {
  return Math.abs(one - other) / ((one + other) / 2)
}
