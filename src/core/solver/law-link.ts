import { ZERO_C } from '../boundary/air.ts'
import { STEFAN_BOLTZMANN } from '../boundary/radiation.ts'
import { type SurfaceState, type WaterFlux, waterFlux } from '../boundary/wet-surface.ts'

/* Heat at the outermost surface of one cell: air, walls and water on one side, what lies within on the other. */

/** What an outermost surface meets, per m² of the piece's own face. */
export interface LinkAmbient {
  air_C: number
  walls_C: number
  /** Pa; NaN where water is left out. */
  vapour: number
  /** W/(m² K) */
  film: number
  emissivity: number
  /** kg/(s m² Pa) */
  perPascal: number
  /** Factor by which a skin slows evaporation. */
  skin: number
}

/** Heat flow of a surface, W/m² into the piece, and what it is made of. */
export interface LinkHeat {
  q: number
  /** W/(m² K): how q falls as the surface gets warmer. */
  slope: number
  convected: number
  radiated: number
  latent: number
  melting: number
  /** kg/(m² s) that leave. */
  vapour: number
  /** W/(m² K) of radiation. */
  radiative: number
}

const water: WaterFlux = { vapour: 0, latent: 0, melting: 0, slope: 0 }
const still = (flux: WaterFlux): void => {
  flux.vapour = 0
  flux.latent = 0
  flux.melting = 0
  flux.slope = 0
}

/** Heat flow at a surface temperature, into `heat`. */
export function heatAt(T_C: number, ambient: LinkAmbient, surface: SurfaceState, heat: LinkHeat): void {
  const { air_C, walls_C, film, emissivity } = ambient
  const Ts = T_C + ZERO_C
  const Tw = walls_C + ZERO_C
  const radiative = emissivity * STEFAN_BOLTZMANN * (Ts + Tw) * (Ts * Ts + Tw * Tw)
  if (Number.isNaN(ambient.vapour)) still(water)
  else waterFlux(surface, T_C, ambient.perPascal, ambient.skin, ambient.vapour, water)
  heat.convected = film * (air_C - T_C)
  heat.radiated = radiative * (walls_C - T_C)
  heat.latent = water.latent
  heat.melting = water.melting
  heat.vapour = water.vapour
  heat.radiative = radiative
  heat.q = heat.convected + heat.radiated - water.latent - water.melting
  heat.slope = film + 4 * emissivity * STEFAN_BOLTZMANN * Ts ** 3 + water.slope
}

/** A pass that moves a surface by less than this is the last, K: the next would move it by some millionths of that. */
const NEAR_K = 2e-3
/** Furthest that one pass moves a surface, K: water's heat is so steep that a bad start would throw it out of range. */
const FURTHEST_K = 25

/**
 * Temperature of the outermost surface at which what comes from outside goes on inward, °C; leaves the heat in `heat`.
 * @param inner  m² K/W between it and the middle of its cell, which is at `cell_C`
 * @param start_C  where it was last
 */
export function solveSurface(
  ambient: LinkAmbient,
  surface: SurfaceState,
  inner: number,
  cell_C: number,
  start_C: number,
  heat: LinkHeat,
): number {
  if (inner === 0) {
    heatAt(cell_C, ambient, surface, heat)
    return cell_C
  }
  let T = Number.isFinite(start_C) ? start_C : cell_C
  for (let pass = 0; pass < 25; pass++) {
    heatAt(T, ambient, surface, heat)
    const move = (heat.q - (T - cell_C) / inner) / (heat.slope + 1 / inner)
    T += Math.min(Math.max(move, -FURTHEST_K), FURTHEST_K)
    if (Math.abs(move) < NEAR_K) break
  }
  heatAt(T, ambient, surface, heat)
  return T
}
