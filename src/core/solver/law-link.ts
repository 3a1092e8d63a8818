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
  /** Of the surface. */
  T_C: number
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

const water: WaterFlux = { T_C: 0, vapour: 0, latent: 0, melting: 0, slope: 0 }
const still = (flux: WaterFlux): void => {
  flux.vapour = 0
  flux.latent = 0
  flux.melting = 0
  flux.slope = 0
}

/** Heat flow at the surface temperature that `heat` tells, into `heat`. */
export function heatAt(ambient: LinkAmbient, surface: SurfaceState, heat: LinkHeat): void {
  const { T_C } = heat
  const { air_C, walls_C, film, emissivity } = ambient
  const Ts = T_C + ZERO_C
  const Tw = walls_C + ZERO_C
  const radiative = emissivity * STEFAN_BOLTZMANN * (Ts + Tw) * (Ts * Ts + Tw * Tw)
  if (Number.isNaN(ambient.vapour)) still(water)
  else {
    water.T_C = T_C
    waterFlux(surface, ambient, water)
  }
  heat.convected = film * (air_C - T_C)
  heat.radiated = radiative * (walls_C - T_C)
  heat.latent = water.latent
  heat.melting = water.melting
  heat.vapour = water.vapour
  heat.radiative = radiative
  heat.q = heat.convected + heat.radiated - water.latent - water.melting
  heat.slope = film + 4 * emissivity * STEFAN_BOLTZMANN * (Ts * Ts * Ts) + water.slope
}

/** A pass that moves a surface by less than this is the last, K: the next would move it by some hundred-thousandths. */
const NEAR_K = 0.02
/** Furthest that one pass moves a surface, K: water's heat is so steep that a bad start would throw it out of range. */
const FURTHEST_K = 25
const MOST_PASSES = 25

/**
 * Finds the temperature of the outermost surface at which what comes from outside goes on inward; leaves it and its heat
 * in `heat`.
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
): void {
  heat.T_C = inner === 0 || !Number.isFinite(start_C) ? cell_C : start_C
  for (let pass = 0; inner > 0 && pass < MOST_PASSES; pass++) {
    heatAt(ambient, surface, heat)
    const move = (heat.q - (heat.T_C - cell_C) / inner) / (heat.slope + 1 / inner)
    heat.T_C += Math.min(Math.max(move, -FURTHEST_K), FURTHEST_K)
    if (Math.abs(move) < NEAR_K) break
  }
  heatAt(ambient, surface, heat)
}
