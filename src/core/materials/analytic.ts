import { drawCurve, keptCurve } from './curve.ts'
import type { Look, Material } from './material.ts'

/** What a material stores: heat capacity, from which enthalpy is integrated, or enthalpy itself. */
export type Storage =
  | { readonly kind: 'capacity' /** J/(m³ K), latent heat left out */; readonly rho_c: (T_C: number) => number }
  | {
      readonly kind: 'enthalpy' /** J/m³, latent jumps left out; continuous and rising */
      readonly enthalpy: (T_C: number) => number
    }

export interface AnalyticInput {
  readonly id: string
  readonly title: string
  readonly look?: Look
  /** kg/m³; 1 when only the product of density and heat capacity is known. */
  readonly density: number
  /** W/(m K); may jump at `corners_C`. */
  readonly k: (T_C: number) => number
  readonly storage: Storage
  /** Temperatures where a function bends or jumps, °C. */
  readonly corners_C?: readonly number[]
  /** Heat taken up at one temperature, J/m³. */
  readonly jumps?: readonly { readonly T_C: number; readonly latent: number }[]
  readonly validity_C?: readonly [number, number]
  readonly freezes_C?: number
  /** Share of the water that is ice, where the law has one. */
  readonly ice?: (T_C: number) => number
  readonly sources?: readonly string[]
}

/** Points and weights of Gauss and Legendre on −1…1. */
const GAUSS: readonly (readonly [number, number])[] = [
  [0, 128 / 225],
  [0.5384693101056831, 0.47862867049936647],
  [-0.5384693101056831, 0.47862867049936647],
  [0.906179845938664, 0.23692688505618908],
  [-0.906179845938664, 0.23692688505618908],
]
const PANELS = 8
/** Peaks of melting and boiling laws are a few kelvin wide: no panel may step over one. */
const WIDEST_PANEL = 1

function integrate(f: (x: number) => number, from: number, to: number): number {
  const panels = Math.max(PANELS, Math.ceil(Math.abs(to - from) / WIDEST_PANEL))
  const half = (to - from) / (2 * panels)
  let total = 0
  for (let panel = 0; panel < panels; panel++) {
    const middle = from + (2 * panel + 1) * half
    for (const [x, weight] of GAUSS) total += weight * f(middle + half * x)
  }
  return total * half
}

/** The integral of a function that may jump at `corners`, from 0 °C. */
function integralOf(f: (x: number) => number, corners: readonly number[]): (T_C: number) => number {
  const stops = [...new Set([0, ...corners])].sort((a, b) => a - b)
  const sums = stops.map(() => 0)
  const origin = stops.indexOf(0)
  for (let i = origin + 1; i < stops.length; i++) sums[i] = sums[i - 1]! + integrate(f, stops[i - 1]!, stops[i]!)
  for (let i = origin - 1; i >= 0; i--) sums[i] = sums[i + 1]! - integrate(f, stops[i]!, stops[i + 1]!)
  return (T_C) => {
    let nearest = 0
    while (nearest + 1 < stops.length && stops[nearest + 1]! <= T_C) nearest++
    return sums[nearest]! + integrate(f, stops[nearest]!, T_C)
  }
}

/**
 * A material given by functions of temperature: model laws with exact solutions, and published formulas. The polyline
 * is as fine as the asked range needs, be it 200 K or the 0 to 1 of a benchmark without units.
 */
export function analyticMaterial(input: AnalyticInput): Material {
  const { id, title, look = 'plain', density, k, storage, jumps = [], sources = [] } = input
  const jumps_C = jumps.map((jump) => jump.T_C)
  const corners_C = [...(input.corners_C ?? []), ...jumps_C]
  const enthalpy = storage.kind === 'enthalpy' ? storage.enthalpy : integralOf(storage.rho_c, corners_C)
  const step = 1e-4
  const rho_c =
    storage.kind === 'capacity'
      ? storage.rho_c
      : (T_C: number) => (storage.enthalpy(T_C + step) - storage.enthalpy(T_C - step)) / (2 * step)
  const latent = (T_C: number): number => jumps.reduce((total, jump) => total + (jump.T_C <= T_C ? jump.latent : 0), 0)
  return {
    id,
    title,
    look,
    density,
    validity_C: input.validity_C ?? [-273.15, 1000],
    ...(input.freezes_C === undefined ? {} : { freezes_C: input.freezes_C }),
    curve: keptCurve((low_C, high_C) =>
      drawCurve(
        {
          point: (T_C) => ({ enthalpy: enthalpy(T_C), k: k(T_C) }),
          corners_C,
          jumps,
          kinks_C: [...new Set(corners_C)],
        },
        low_C,
        high_C,
        6e-6 * (high_C - low_C),
      ),
    ),
    at: (T_C) => ({
      T_C,
      k: k(T_C),
      rho: density,
      c: rho_c(T_C) / density,
      enthalpy_J_kg: (enthalpy(T_C) + latent(T_C)) / density,
      ice_share: input.ice?.(T_C) ?? 0,
      solid_fat_share: 0,
    }),
    notes: [],
    sources,
  }
}
