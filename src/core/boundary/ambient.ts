import { PRESSURE, saturationPressure } from '../materials/vapour.ts'
import type { Moist } from './film-laws.ts'
import type { Profile } from './profile.ts'
import { type Humidity, vapourPressure } from './psychrometrics.ts'

/** Film coefficient of a face from what is at its surface and what is far from it, W/(m² K). */
export type Film = (surface: Moist, air: Moist) => number

/** Air and walls whose course is given. */
export interface Ambient {
  readonly air_C: Profile
  readonly walls_C: Profile
  /** Absent: the air is taken as dry, and nothing evaporates or settles. */
  readonly humidity?: Humidity
}

/** Air and walls at one moment. */
export interface AmbientMoment {
  air_C: number
  walls_C: number
  /** Pa; NaN where the air's water is left out. */
  vapour: number
}

const BOILING_C = 100
/** Most of the pressure of air that is its vapour's. */
const MOST_SHARE = 0.98

/** Vapour pressure of air, Pa; NaN where its water is left out. Saturated at most. */
export function vapourOf(humidity: Humidity | undefined, air_C: number): number {
  if (humidity === undefined) return Number.NaN
  // What is too much has settled; above boiling air may be all but vapour.
  const most = Math.min(saturationPressure(Math.min(air_C, BOILING_C)), MOST_SHARE * PRESSURE)
  return Math.min(vapourPressure(humidity, Math.min(air_C, BOILING_C)), most)
}
