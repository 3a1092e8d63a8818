import { saturationPressure } from '../materials/vapour.ts'
import { airAt, moistAirDensity, R_VAPOUR, ZERO_C } from './air.ts'
import { latentHeat, vapourFilm } from './evaporation.ts'
import { nusseltLayerHeatedBelow, nusseltLayerUpright } from './natural/enclosure.ts'
import { effectiveEmissivity, radiativeFilm } from './radiation.ts'
import { densityContrast, filmOf, rayleigh } from './similarity.ts'

/** Which way heat crosses a closed layer of air; an upright one has a height, m. */
export type Crossing =
  | { readonly kind: 'up' }
  | { readonly kind: 'down' }
  | { readonly kind: 'sideways'; readonly height: number }

/** Nusselt number of a closed layer: the law that its position asks for. */
function nusseltLayer(crossing: Crossing, Ra: number, thickness: number): number {
  if (crossing.kind === 'down') return 1
  if (crossing.kind === 'up') return nusseltLayerHeatedBelow(Ra)
  return nusseltLayerUpright(Ra, crossing.height / thickness)
}

/**
 * Conductance of a closed layer of air between two faces, W/(m² K): conduction or convection, and radiation.
 * @param thickness  m
 * @param emissivities  of the two faces
 * Valid: as the laws of natural/enclosure.ts.
 */
export function gapConductance(
  thickness: number,
  crossing: Crossing,
  one_C: number,
  other_C: number,
  emissivities: readonly [number, number],
): number {
  const mean = airAt((one_C + other_C) / 2)
  const Ra = rayleigh(mean, densityContrast(moistAirDensity(one_C, 0), moistAirDensity(other_C, 0)), thickness)
  const convective = filmOf(nusseltLayer(crossing, Ra, thickness), mean, thickness)
  return convective + radiativeFilm(effectiveEmissivity(...emissivities, 1), one_C, other_C)
}

/** A closed layer of air under a lid, as it lies on a face. */
export interface Gap {
  /** m */
  readonly thickness: number
  /** m, of a layer beside an upright face; absent over or under a level one. */
  readonly height?: number
  /** Whether the lid is above the face. */
  readonly above: boolean
  /** Of the face and of the lid. */
  readonly emissivities: readonly [number, number]
}

/**
 * Conductance of a gap between a face and its lid, W/(m² K). Over a wet face water goes over to a colder lid and drips
 * back: a pipe for heat that passes more than all else.
 * @param activity  of the water of the face, 0 where it is dry
 * Valid: lid not colder than 0 °C, wet inside. Source: laws of `gapConductance`; `chilton-colburn-1934` for the vapour.
 */
export function lidConductance(gap: Gap, face_C: number, lid_C: number, activity: number): number {
  const { thickness, height, above, emissivities } = gap
  const wet = activity > 0 && face_C > lid_C
  const vapour = (T_C: number): number => (wet ? saturationPressure(Math.min(Math.max(T_C, 0), 99)) : 0)
  const [atFace, atLid] = [activity * vapour(face_C), vapour(lid_C)]
  const mean_C = (face_C + lid_C) / 2
  const air = airAt(mean_C)
  const [rhoFace, rhoLid] = [moistAirDensity(face_C, atFace), moistAirDensity(lid_C, atLid)]
  const rises = above ? rhoFace < rhoLid : rhoLid < rhoFace
  const crossing: Crossing = height === undefined ? { kind: rises ? 'up' : 'down' } : { kind: 'sideways', height }
  const contrast = densityContrast(rhoFace, rhoLid)
  const convective = filmOf(nusseltLayer(crossing, rayleigh(air, contrast, thickness), thickness), air, thickness)
  const radiative = radiativeFilm(effectiveEmissivity(...emissivities, 1), face_C, lid_C)
  if (!wet || atFace <= atLid) return convective + radiative
  const moved = (vapourFilm(convective, mean_C) * (atFace - atLid)) / (R_VAPOUR * (mean_C + ZERO_C))
  return convective + radiative + (moved * latentHeat(face_C)) / (face_C - lid_C)
}

/** A face and a lid at room temperature, °C: what a gap is told for where no course is known. */
const REST_C = [25, 20] as const

/** Conductance of a dry gap at room temperature, W/(m² K). */
export function restConductance(gap: Gap): number {
  return lidConductance(gap, REST_C[0], REST_C[1], 0)
}
