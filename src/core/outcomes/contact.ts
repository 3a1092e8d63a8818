/* Where a warm mass meets a cold one, and where air meets a cold surface. */

/** Thermal effusivity, √(k ρ c). */
const effusivity = (k: number, rho: number, c: number): number => Math.sqrt(k * rho * c)

/** A mass as it comes to a contact. */
export interface Side {
  readonly k: number
  readonly rho: number
  readonly c: number
  readonly T_C: number
}

/** Temperature that two thick masses take where they touch, °C. */
export function contactTemperature(one: Side, other: Side): number {
  const a = effusivity(one.k, one.rho, one.c)
  const b = effusivity(other.k, other.rho, other.c)
  return (a * one.T_C + b * other.T_C) / (a + b)
}

/**
 * Seconds until a thin coat on a cold core has given off its heat.
 * @param heat  of the coat until it is set, J/kg
 * @param dT  contact above core temperature, K
 */
export function coatSettingTime(
  thickness: number,
  density: number,
  heat: number,
  core: { readonly k: number; readonly rho: number; readonly c: number },
  dT: number,
): number {
  return (Math.PI / 4) * ((thickness * density * heat) / (effusivity(core.k, core.rho, core.c) * dT)) ** 2
}

/** Magnus constants. Source: several pages, e.g. calcipedia.org (seen). */
const A = 17.625
const B_C = 243.04

/** Dew point of air, °C. */
export function dewPoint(T_C: number, humidity_pct: number): number {
  const y = (A * T_C) / (B_C + T_C) + Math.log(humidity_pct / 100)
  return (B_C * y) / (A - y)
}

/** A surface no warmer than this above the dew point sweats, K (choice). */
export const SWEATS_K = 1
