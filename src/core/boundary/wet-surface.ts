import { saturationAt } from '../materials/saturation-table.ts'
import { evaporationHeat } from '../materials/vapour.ts'
import { R_VAPOUR, ZERO_C } from './air.ts'
import { latentHeat, sublimationHeat } from './evaporation.ts'

/* Water on and in the outermost surface, for films that are solved many times a step. */

/** Heat of melting of ice, J/kg. Source: `iapws`. */
export const MELTING_HEAT = 333_600
/** Time in which frost melts, or dew freezes, on a surface beyond 0 °C, s (assumed: quick against hours). */
export const MELTING_TIME = 300
/** Film of boiling at a wet surface, W/(m² K) (assumed: large; it only pins the surface). */
const BOILING_FILM = 2000
/** Between these shares of its water a surface goes from wet to dry (assumed). */
const WET_SHARE = 0.5
const DRY_SHARE = 0.05
/** Dew that wets a surface all over, kg/m² (assumed). */
export const FULL_DEW = 5e-3

/** What a surface has of water. */
export interface SurfaceState {
  /** Of the food as it lies there, 0 to 1; 0 where it is dry or sealed. */
  readonly activity: number
  /** Boiling point at that activity, °C. */
  readonly boils_C: number
  /** kg/m² that can leave before the surface is dry, and how many there were. */
  reserve: number
  readonly fullReserve: number
  /** Whether a skin forms on it. */
  readonly skins: boolean
  /** Whether something lies on it and keeps its water in. */
  sealed: boolean
  /** Settled from the air, kg/m²: liquid and frozen. */
  dew: number
  frost: number
}

/** How far a surface is still wet with its own water, 0 to 1. */
export function wetnessOf({ reserve, fullReserve, sealed }: SurfaceState): number {
  if (sealed || fullReserve === 0) return 0
  return Math.min(Math.max((reserve / fullReserve - DRY_SHARE) / (WET_SHARE - DRY_SHARE), 0), 1)
}

/** What moves water at a surface. */
export interface Drying {
  /** Vapour that a difference in pressure moves, kg/(s m² Pa) */
  readonly perPascal: number
  /** Factor by which a skin slows what leaves. */
  readonly skin: number
  /** Vapour pressure of the air, Pa. */
  readonly vapour: number
}

/** What water does at a surface of `T_C`, per m²: flux of vapour away kg/s, heat that takes W, and that grows with T, W/K. */
export interface WaterFlux {
  T_C: number
  vapour: number
  latent: number
  melting: number
  slope: number
}

/** Share of what settles at a temperature that is ice. */
const frozenShare = (T_C: number): number => Math.min(Math.max(0.5 - T_C, 0), 1)

/** Heat of evaporation or sublimation, J/kg, without the jump at 0 °C that would keep a solver from settling. */
function smoothLatentHeat(T_C: number): number {
  const frozen = frozenShare(T_C)
  if (frozen === 0 || frozen === 1) return latentHeat(T_C)
  return (1 - frozen) * evaporationHeat(T_C) + frozen * sublimationHeat(T_C)
}

/** Vapour and its heat at the surface temperature that `flux` tells, into `flux`: a number handed over costs a box. */
export function waterFlux(surface: SurfaceState, drying: Drying, flux: WaterFlux): void {
  const { T_C } = flux
  const { perPascal, skin, vapour: inAir } = drying
  flux.vapour = 0
  flux.latent = 0
  flux.melting = 0
  flux.slope = 0
  const saturated = saturationAt(Math.min(T_C, 150))
  const L = smoothLatentHeat(Math.min(T_C, 120))
  // Clausius and Clapeyron: good for a slope.
  const steep = (saturated * L) / (R_VAPOUR * (T_C + ZERO_C) ** 2)
  if (saturated < inAir) {
    flux.vapour = perPascal * (saturated - inAir)
    flux.latent = flux.vapour * L
    flux.slope = perPascal * steep * L
  } else {
    const wetness = wetnessOf(surface)
    const settled = Math.min(1, Math.max(0, surface.dew + surface.frost) / FULL_DEW)
    const own = surface.activity * wetness
    const activity = own + (1 - own) * settled
    // Dew lies on the skin, not under it.
    const through = perPascal * (surface.skins ? skin + (1 - skin) * settled : 1)
    if (activity * saturated > inAir) {
      flux.vapour = through * (activity * saturated - inAir)
      flux.latent = flux.vapour * L
      flux.slope = through * activity * steep * L
    }
    if (own > 0 && T_C > surface.boils_C) {
      const heat = BOILING_FILM * wetness * (T_C - surface.boils_C)
      flux.vapour += heat / L
      flux.latent += heat
      flux.slope += BOILING_FILM * wetness
    }
  }
  if (surface.frost > 0 && T_C > 0) {
    const rate = (MELTING_HEAT * surface.frost) / MELTING_TIME
    flux.melting = rate * Math.min(1, T_C)
    if (T_C < 1) flux.slope += rate
  } else if (surface.dew > 0 && T_C < 0) {
    const rate = (MELTING_HEAT * surface.dew) / MELTING_TIME
    flux.melting = -rate * Math.min(1, -T_C)
    if (T_C > -1) flux.slope += rate
  }
}

/** Takes in what `dt` s of these mean fluxes did to the water of a surface that was at `T_C` in the mean. */
export function settleWater(surface: SurfaceState, T_C: number, vapour: number, melting: number, dt: number): void {
  // More than there was at the end of a step is owed, not forgotten: heat and water stay in step.
  const melted = (melting * dt) / MELTING_HEAT
  surface.frost -= melted
  surface.dew += melted
  const gone = vapour * dt
  if (gone < 0) {
    // As its latent heat was counted: ice where that was of sublimation.
    const frozen = frozenShare(T_C)
    surface.frost -= frozen * gone
    surface.dew -= (1 - frozen) * gone
    return
  }
  // What settled goes first, then the food's own.
  const fromDew = Math.min(gone, Math.max(surface.dew, 0))
  const fromFrost = Math.min(gone - fromDew, Math.max(surface.frost, 0))
  surface.dew -= fromDew
  surface.frost -= fromFrost
  surface.reserve -= gone - fromDew - fromFrost
}

/** A surface that has no water of its own. */
export const drySurface = (): SurfaceState => ({
  activity: 0,
  boils_C: Number.POSITIVE_INFINITY,
  reserve: 0,
  fullReserve: 0,
  skins: false,
  sealed: false,
  dew: 0,
  frost: 0,
})
