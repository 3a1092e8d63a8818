import { PRESSURE } from '../materials/vapour.ts'
import { airAt, airViscosity, moistAirDensity } from './air.ts'
import { blendedFilm } from './blending.ts'
import { nusseltCylinder } from './forced/cylinder.ts'
import { nusseltPlateFanned, nusseltPlateQuiet } from './forced/plate.ts'
import { nusseltSphereInStream } from './forced/sphere.ts'
import { FANNED_SPEED, filmRoughWallJurges } from './forced/wall.ts'
import { nusseltLevelCylinder } from './natural/level-cylinder.ts'
import { nusseltStablePlate, nusseltUnstablePlate } from './natural/level-plate.ts'
import { nusseltSphere } from './natural/sphere.ts'
import { nusseltVerticalPlate } from './natural/vertical-plate.ts'
import { densityContrast, filmOf, rayleigh, reynolds } from './similarity.ts'

/* Which law a face of the piece takes; the laws themselves know nothing of faces. */

/** A face as the air sees it; lengths in m. `along` is the length along a stream. */
export type FilmShape =
  | { readonly kind: 'upright'; readonly height: number; readonly along: number }
  /** Level, looking up or down; `areaOverPerimeter` of its plan. */
  | { readonly kind: 'up' | 'down'; readonly areaOverPerimeter: number; readonly along: number }
  | { readonly kind: 'cylinder'; readonly diameter: number }
  | { readonly kind: 'ball'; readonly diameter: number }

/** Air at a surface or far from it. */
export interface Moist {
  readonly T_C: number
  /** Vapour pressure, Pa. */
  readonly vapour: number
}

/** What is thought of the air along level and upright faces: quiet and rough are the ends of a band around fanned. */
export type Stream = 'quiet' | 'fanned' | 'rough'

/** Slowest air of a closed room: draughts never rest. */
export const LEAST_SPEED = 0.05

/** Film of still air, W/(m² K). Whether a level face stirs the air is told by which air is the lighter. */
export function naturalFilm(shape: FilmShape, surface: Moist, air: Moist, pressure = PRESSURE): number {
  const film = airAt((surface.T_C + air.T_C) / 2, pressure)
  const rhoSurface = moistAirDensity(surface.T_C, surface.vapour, pressure)
  const rhoAir = moistAirDensity(air.T_C, air.vapour, pressure)
  const contrast = densityContrast(rhoSurface, rhoAir)
  switch (shape.kind) {
    case 'upright':
      return filmOf(nusseltVerticalPlate(rayleigh(film, contrast, shape.height), film.Pr), film, shape.height)
    case 'up':
    case 'down': {
      const Ra = rayleigh(film, contrast, shape.areaOverPerimeter)
      const rises = rhoSurface < rhoAir
      const Nu = rises === (shape.kind === 'up') ? nusseltUnstablePlate(Ra) : nusseltStablePlate(Ra)
      return filmOf(Nu, film, shape.areaOverPerimeter)
    }
    case 'cylinder':
      return filmOf(nusseltLevelCylinder(rayleigh(film, contrast, shape.diameter), film.Pr), film, shape.diameter)
    case 'ball':
      return filmOf(nusseltSphere(rayleigh(film, contrast, shape.diameter), film.Pr), film, shape.diameter)
  }
}

/** Film of moving air, W/(m² K), speed in m/s. */
export function forcedFilm(
  shape: FilmShape,
  speed: number,
  surface_C: number,
  air_C: number,
  pressure = PRESSURE,
  stream: Stream = 'fanned',
): number {
  if (shape.kind === 'ball') {
    const stream = airAt(air_C, pressure)
    const thinning = stream.mu / airViscosity(surface_C)
    const Nu = nusseltSphereInStream(reynolds(stream, speed, shape.diameter), stream.Pr, thinning)
    return filmOf(Nu, stream, shape.diameter)
  }
  const film = airAt((surface_C + air_C) / 2, pressure)
  if (shape.kind === 'cylinder')
    return filmOf(nusseltCylinder(reynolds(film, speed, shape.diameter), film.Pr), film, shape.diameter)
  const Re = reynolds(film, speed, shape.along)
  if (stream === 'quiet') return filmOf(nusseltPlateQuiet(Re, film.Pr), film, shape.along)
  const fanned = filmOf(nusseltPlateFanned(Re, film.Pr), film, shape.along)
  return stream === 'fanned' || speed < FANNED_SPEED ? fanned : Math.max(fanned, filmRoughWallJurges(speed))
}

/** Film of air that moves and rises, W/(m² K). */
export function airFilm(
  shape: FilmShape,
  speed: number,
  surface: Moist,
  air: Moist,
  pressure = PRESSURE,
  stream: Stream = 'fanned',
): number {
  const forced = forcedFilm(shape, Math.max(speed, LEAST_SPEED), surface.T_C, air.T_C, pressure, stream)
  return blendedFilm(naturalFilm(shape, surface, air, pressure), forced)
}
