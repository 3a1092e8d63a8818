import { airAt, moistAirDensity } from './air.ts'
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
