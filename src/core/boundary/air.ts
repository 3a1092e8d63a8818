import { airDensity, PRESSURE } from '../materials/vapour.ts'

/* Dry air as the film laws need it. Vapour changes it little up to 0.1 kg per kg of dry air (k by -5 %, nu by -5 %). */

/** Standard acceleration of free fall as the film laws are evaluated with, m/s². */
export const GRAVITY = 9.81
/** 0 °C in kelvin. */
export const ZERO_C = 273.15
/** Gas constants of dry air and of water vapour, J/(kg K). Source: `ashrae-fundamentals-2017`. */
export const R_DRY_AIR = 287.055
export const R_VAPOUR = 461.52

/** Temperatures between which the cubics below were fitted, °C. */
export const AIR_RANGE_C = [-40, 300] as const

/** Dry air at one temperature and pressure. */
export interface Air {
  /** Density, kg/m³. */
  readonly rho: number
  /** Dynamic viscosity, Pa s. */
  readonly mu: number
  /** Conductivity, W/(m K). */
  readonly k: number
  /** Heat capacity at constant pressure, J/(kg K). */
  readonly c: number
  /** Kinematic viscosity, m²/s. */
  readonly nu: number
  /** Thermal diffusivity, m²/s. */
  readonly alpha: number
  /** Prandtl number. */
  readonly Pr: number
}

const cubic = (t: number, a: number, b: number, c: number, d: number): number => a + t * (b + t * (c + t * d))

/** Dynamic viscosity of air, Pa s. Valid: `AIR_RANGE_C` (within 0.04 %). Source: `lemmon-jacobsen-2004`, cubic fit. */
export function airViscosity(T_C: number): number {
  return cubic(T_C, 1.7215751e-5, 5.00351749e-8, -3.47349197e-11, 2.64767953e-14)
}

/**
 * Conductivity of air for film laws, W/(m K). Valid: `AIR_RANGE_C` (within 0.03 %). Source: `lemmon-jacobsen-2004`,
 * cubic fit. The older law in materials/vapour.ts, up to 1.6 % off this one, stays where pores were tuned with it.
 */
export function filmAirConductivity(T_C: number): number {
  return cubic(T_C, 0.0243575684, 7.64661489e-5, -4.13537806e-8, 3.13706773e-11)
}

/** Heat capacity of air, J/(kg K). Valid: `AIR_RANGE_C` (within 0.02 %). Source: `lemmon-2000`, cubic fit. */
export function airHeatCapacity(T_C: number): number {
  return cubic(T_C, 1005.612, 0.0127657727, 4.61871831e-4, -2.13072186e-7)
}

/**
 * Dry air at `T_C` °C and `pressure` Pa; only density and what follows from it depends on pressure.
 * Valid: `AIR_RANGE_C`, around 1 atm.
 */
export function airAt(T_C: number, pressure = PRESSURE): Air {
  const rho = (airDensity(T_C) * pressure) / PRESSURE
  const mu = airViscosity(T_C)
  const k = filmAirConductivity(T_C)
  const c = airHeatCapacity(T_C)
  const nu = mu / rho
  const alpha = k / (rho * c)
  return { rho, mu, k, c, nu, alpha, Pr: nu / alpha }
}

/** Density of air with vapour in it, kg/m³: ideal gases. Vapour pressure and pressure in Pa. */
export function moistAirDensity(T_C: number, vapour: number, pressure = PRESSURE): number {
  const T = T_C + ZERO_C
  return (pressure - vapour) / (R_DRY_AIR * T) + vapour / (R_VAPOUR * T)
}
