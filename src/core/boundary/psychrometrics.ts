import { humidityRatio, PRESSURE, saturationPressure } from '../materials/vapour.ts'

/* Water in the air, from freezers to ovens. Vapour pressures and pressures in Pa, humidity ratios kg per kg dry air. */

/** Relative humidity, over ice below 0 °C, or kg of vapour per kg of dry air. */
export type Humidity = { readonly relative: number } | { readonly kg_kg: number }

/** Vapour pressure of air at `T_C` °C, Pa. */
export function vapourPressure(humidity: Humidity, T_C: number, pressure = PRESSURE): number {
  if ('kg_kg' in humidity) return (pressure * humidity.kg_kg) / (0.621945 + humidity.kg_kg)
  return humidity.relative * saturationPressure(T_C)
}

const COLDEST_C = -100
const HOTTEST_C = 200

/** Where a rising function of temperature passes `value`, by halving. */
function solveRising(rises: (T_C: number) => number, value: number, low_C: number, high_C: number): number {
  let low = low_C
  let high = high_C
  for (let pass = 0; pass < 60; pass++) {
    const middle = (low + high) / 2
    if (rises(middle) < value) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/**
 * Temperature at which vapour of this pressure is saturated, °C: the dew point, below 0 °C the frost point, and for the
 * pressure of the air the boiling point. Valid: −100 to 200 °C. Source: inverse of `saturationPressure`.
 */
export function dewPoint(vapour: number): number {
  return solveRising(saturationPressure, vapour, COLDEST_C, HOTTEST_C)
}

/**
 * Wet-bulb temperature of air, °C, by the balance of heat of an adiabatic saturation.
 * Valid: dry bulb up to 300 °C; below 0 °C the bulb is iced. The search stays below the boiling point: beyond it
 * saturated air has no humidity ratio, and a search up to the dry bulb runs away in an oven.
 * Source: `ashrae-fundamentals-2017`, ch. 1, eq. 33 and 35; within 0.11 K of real-gas equations up to 220 °C.
 */
export function wetBulb(T_C: number, W: number, pressure = PRESSURE): number {
  const boils_C = dewPoint(pressure)
  const humidityOf = (bulb_C: number): number => {
    const saturated = humidityRatio(saturationPressure(bulb_C), pressure)
    return bulb_C >= 0
      ? ((2501 - 2.326 * bulb_C) * saturated - 1.006 * (T_C - bulb_C)) / (2501 + 1.86 * T_C - 4.186 * bulb_C)
      : ((2830 - 0.24 * bulb_C) * saturated - 1.006 * (T_C - bulb_C)) / (2830 + 1.86 * T_C - 2.1 * bulb_C)
  }
  return solveRising(humidityOf, W, COLDEST_C, Math.min(T_C, boils_C - 0.05))
}

/** Enthalpy of air with vapour in it, J per kg of dry air, zero at 0 °C. Source: `ashrae-fundamentals-2017`, ch. 1. */
export function moistAirEnthalpy(T_C: number, W: number): number {
  return 1000 * (1.006 * T_C + W * (2501 + 1.86 * T_C))
}
