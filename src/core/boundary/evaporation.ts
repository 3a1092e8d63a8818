import { evaporationHeat, PRESSURE } from '../materials/vapour.ts'
import { airAt, R_VAPOUR, ZERO_C } from './air.ts'

/* Water that leaves or settles on a surface, kg/(m² s), positive when it leaves. Pressures in Pa. */

/**
 * Diffusivity of water vapour in air, m²/s: 1.87e-10 T^2.072 p0/p, T in K.
 * Valid: 280 to 450 K; down to −40 °C within some per cent. Source: `marrero-mason-1972`; `cengel-3`, ex. 14.10. The
 * law in materials/vapour.ts, 2 to 5 % higher, stays where pores were tuned with it.
 */
export function vapourDiffusivity(T_C: number, pressure = PRESSURE): number {
  return (1.87e-10 * (T_C + ZERO_C) ** 2.072 * PRESSURE) / pressure
}

/** Heat of sublimation of ice, J/kg. Valid: −40 to 0 °C. Source: `rogers-yau-1989` (from memory). */
export function sublimationHeat(T_C: number): number {
  return 1000 * (2834.1 - 0.29 * T_C - 0.004 * T_C * T_C)
}

/** Heat that a kilogram takes with it from a surface, J/kg: of evaporation, below 0 °C of sublimation. */
export function latentHeat(T_C: number): number {
  return T_C < 0 ? sublimationHeat(T_C) : evaporationHeat(T_C)
}

/**
 * Film coefficient of vapour from that of heat, m/s: h / (rho c Le^(2/3)), air at the film temperature.
 * Source: `chilton-colburn-1934` (from memory); `cengel-3`, ex. 14.11 to 14.13.
 */
export function vapourFilm(h: number, film_C: number, pressure = PRESSURE): number {
  const { rho, c, alpha } = airAt(film_C, pressure)
  const Le = alpha / vapourDiffusivity(film_C, pressure)
  return h / (rho * c * Le ** (2 / 3))
}

/**
 * Water that leaves a surface, kg/(m² s): beta (p_s − p_v)/(R_v T_f).
 * @param beta  film coefficient of vapour, m/s
 * @param atSurface  vapour pressure at the surface, Pa: water activity times saturation
 * Valid: open surfaces of 7 to 94 °C within the ±20 % that pools are known to. Without the factor of Stefan's flow,
 * which would put it 46 % too high at 80 °C against that fit. Source: `cengel-3`, ex. 14.13; `shah-2002` (abstract).
 */
export function evaporation(beta: number, atSurface: number, inAir: number, film_C: number): number {
  return (beta * (atSurface - inAir)) / (R_VAPOUR * (film_C + ZERO_C))
}

/**
 * The same with Stefan's flow: the difference becomes p ln((p − p_v)/(p − p_s)).
 * Valid: condensation from air with much vapour (above 0.3 of its pressure), where the suction of the surface helps.
 * Source: `cengel-3`, chapter 14.
 */
export function evaporationStefan(
  beta: number,
  atSurface: number,
  inAir: number,
  film_C: number,
  pressure = PRESSURE,
): number {
  const driving = pressure * Math.log((pressure - inAir) / (pressure - atSurface))
  return (beta * driving) / (R_VAPOUR * (film_C + ZERO_C))
}

/**
 * Film coefficient of vapour behind a skin, crust or paper, m/s: both in series.
 * @param thickness  m
 * @param diffusivity  of vapour through it, m²/s
 */
export function vapourFilmBehind(beta: number, thickness: number, diffusivity: number): number {
  return 1 / (1 / beta + thickness / diffusivity)
}

/**
 * Water that leaves a still pool, kg/(m² s): 35 rho_w (rho_a − rho_w)^(1/3) (W_w − W_a) kg/(m² h), nothing where the
 * saturated air at the water is the heavier. Densities are kg of dry air per m³ of moist air. For comparison with
 * `evaporation`.
 * Source: `shah-2002` (from memory).
 */
export function poolEvaporationShah(rhoSaturated: number, rhoAir: number, WSaturated: number, WAir: number): number {
  return (35 * rhoSaturated * Math.cbrt(Math.max(0, rhoAir - rhoSaturated)) * (WSaturated - WAir)) / 3600
}
