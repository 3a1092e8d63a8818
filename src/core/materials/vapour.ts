/* Water vapour: saturation, heat of evaporation, and what it carries through the pores of a crumb or foam. */

/** Pressure of the air, Pa. */
export const PRESSURE = 101_325

const GAS_CONSTANT = 8.314462
const WATER_KG_MOL = 0.01801528
const AIR_KG_MOL = 0.0289647

/**
 * Saturation pressure over water (from 0 °C up) or ice (below), Pa.
 * Valid: −100 to 200 °C. Source: `ashrae-fundamentals-2017`, ch. 1, eq. 5 and 6.
 */
export function saturationPressure(T_C: number): number {
  const T = T_C + 273.15
  if (T_C < 0)
    return Math.exp(
      -5674.5359 / T +
        6.3925247 -
        9.677843e-3 * T +
        6.2215701e-7 * T ** 2 +
        2.0747825e-9 * T ** 3 -
        9.484024e-13 * T ** 4 +
        4.1635019 * Math.log(T),
    )
  return Math.exp(
    -5800.2206 / T +
      1.3914993 -
      4.8640239e-2 * T +
      4.1764768e-5 * T ** 2 -
      1.4452093e-8 * T ** 3 +
      6.5459673 * Math.log(T),
  )
}

/** Slope of the saturation pressure over water, Pa/K, from the same formula. Valid: 0 to 200 °C. */
function saturationSlope(T_C: number, pressure: number): number {
  const T = T_C + 273.15
  const slope = 5800.2206 / T ** 2 - 4.8640239e-2 + 2 * 4.1764768e-5 * T - 3 * 1.4452093e-8 * T ** 2 + 6.5459673 / T
  return pressure * slope
}

/** Heat of evaporation of water, J/kg. Valid: 0 to 120 °C. Source: `iapws` (a fit within 60 J/kg). */
export function evaporationHeat(T_C: number): number {
  return 1000 * (2500.95 + T_C * (-2.37822 + T_C * (6.2751e-4 - 1.2957e-5 * T_C)))
}

/** Temperature at which water of this activity boils at 1 atm, °C. */
export function boilingPoint(activity: number): number {
  let low = 50
  let high = 199
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2
    if (activity * saturationPressure(middle) < PRESSURE) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/** Conductivity of dry air, W/(m K). Source: `us-standard-atmosphere-1976` (from memory). */
export function airConductivity(T_C: number): number {
  const T = T_C + 273.15
  return (2.646e-3 * T ** 1.5) / (T + 245.4 * 10 ** (-12 / T))
}

/** Density of dry air at 1 atm, kg/m³: ideal gas. */
export function airDensity(T_C: number): number {
  return (PRESSURE * AIR_KG_MOL) / (GAS_CONSTANT * (T_C + 273.15))
}

/** Diffusivity of water vapour in air at 1 atm, m²/s. Source: `krischer` (from memory). */
export function vapourDiffusion(T_C: number): number {
  return 2.26e-5 * ((T_C + 273.15) / 273.15) ** 1.81 * (1e5 / PRESSURE)
}

/**
 * What evaporation on the warm side of a pore and condensation on the cold side add to conduction, W/(m K).
 * Valid: 0 to 98 °C; above, the value of 98 °C. Source: `krischer`, `de-vries-1958` (from memory).
 */
export function vapourConductivity(T_C: number, activity: number): number {
  const t = Math.min(T_C, 98)
  const T = t + 273.15
  const pressure = saturationPressure(t)
  return (
    ((vapourDiffusion(t) * WATER_KG_MOL) / (GAS_CONSTANT * T)) *
    (PRESSURE / (PRESSURE - activity * pressure)) *
    activity *
    saturationSlope(t, pressure) *
    evaporationHeat(t)
  )
}

/**
 * Conductivity of a humid pore, W/(m K): air plus half of the vapour's full effect, at most 0.6; below 0 °C air alone.
 * The half and the cap were tuned on `sweat-1973` (cake) and `zanoni-1995` (bread crumb).
 */
export function poreConductivity(T_C: number, activity: number): number {
  const air = airConductivity(T_C)
  if (T_C < 0) return air
  return Math.min(air + 0.5 * vapourConductivity(T_C, activity), 0.6)
}

/** kg of water per kg of dry air from the vapour's pressure, Pa. Source: `ashrae-fundamentals-2017`. */
export function humidityRatio(vapourPressure: number, pressure = PRESSURE): number {
  return (0.621945 * vapourPressure) / (pressure - vapourPressure)
}
