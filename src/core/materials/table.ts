import { message } from '../messages.ts'
import { drawCurve, keptCurve } from './curve.ts'
import type { Look, Material } from './material.ts'

export interface TableInput {
  readonly id: string
  readonly title: string
  readonly look?: Look
  /** kg/m³ */
  readonly rho: number
  /** °C, never falling; two equal ones are a change of phase at one temperature. Shape: points (2 or more) */
  readonly T_C: readonly number[]
  /** J/kg, strictly rising. Shape: points */
  readonly enthalpy_J_kg: readonly number[]
  /** W/(m K), above 0. Shape: points */
  readonly k: readonly number[]
  readonly sources?: readonly string[]
}

interface Piece {
  readonly from: number
  readonly to: number
  readonly H: number
  readonly c: number
  readonly k: number
  readonly slope: number
}

/**
 * A material given as a table: straight lines between the points, for enthalpy and for conductivity. Beyond its ends
 * the heat capacity of the last piece and the conductivity of the last point go on, and `validity_C` says so.
 */
export function tableMaterial(input: TableInput): Material {
  const { id, title, look = 'plain', rho, T_C: T, enthalpy_J_kg: H, k, sources = [] } = input
  const pieces: Piece[] = []
  const jumps: { T_C: number; latent: number }[] = []
  for (let i = 0; i + 1 < T.length; i++) {
    const width = T[i + 1]! - T[i]!
    const rise = H[i + 1]! - H[i]!
    if (width === 0) jumps.push({ T_C: T[i]!, latent: rise })
    else
      pieces.push({
        from: T[i]!,
        to: T[i + 1]!,
        H: H[i]!,
        c: rise / width,
        k: k[i]!,
        slope: (k[i + 1]! - k[i]!) / width,
      })
  }
  const first = pieces[0]!
  const last = pieces[pieces.length - 1]!
  /** The piece of a temperature; at a point, the one above it. */
  const piece = (at: number): Piece => {
    let low = 0
    let high = pieces.length - 1
    while (low < high) {
      const middle = (low + high) >> 1
      if (at < pieces[middle]!.to) high = middle
      else low = middle + 1
    }
    return pieces[low]!
  }
  const enthalpy = (at: number): number => {
    const one = piece(at)
    return one.H + one.c * (at - one.from)
  }
  const conductivity = (at: number): number => {
    const one = piece(at)
    return one.k + one.slope * (Math.min(Math.max(at, first.from), last.to) - one.from)
  }
  const latentBelow = (at: number): number =>
    jumps.reduce((total, jump) => total + (jump.T_C <= at ? jump.latent : 0), 0)
  const draw = (low_C: number, high_C: number) =>
    drawCurve(
      {
        point: (at) => ({ enthalpy: rho * (enthalpy(at) - latentBelow(at)), k: conductivity(at) }),
        corners_C: T,
        jumps: jumps.map((jump) => ({ T_C: jump.T_C, latent: rho * jump.latent })),
        kinks_C: [...new Set(T.slice(1, -1))],
      },
      low_C,
      high_C,
    )
  return {
    id,
    title,
    look,
    density: rho,
    validity_C: [first.from, last.to],
    curve: keptCurve(draw),
    at: (at) => ({
      T_C: at,
      k: conductivity(at),
      rho,
      c: piece(at).c,
      enthalpy_J_kg: enthalpy(at),
      ice_share: 0,
      solid_fat_share: 0,
    }),
    notes: [message('table-range', { low_C: first.from, high_C: last.to })],
    sources,
  }
}
