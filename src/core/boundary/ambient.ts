import { saturationPressure } from '../materials/vapour.ts'
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

/** Vapour pressure of air, Pa; NaN where its water is left out. Saturated at most. */
export function vapourOf(humidity: Humidity | undefined, air_C: number): number {
  if (humidity === undefined) return Number.NaN
  const vapour = vapourPressure(humidity, air_C)
  // Above boiling there is no saturated air; below it, what is too much has settled.
  return air_C < 95 ? Math.min(vapour, saturationPressure(air_C)) : vapour
}
