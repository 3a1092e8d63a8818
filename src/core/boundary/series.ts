import { filmAirConductivity } from './air.ts'

/** A layer that heat crosses. */
export interface Crossed {
  /** m */
  readonly thickness: number
  /** W/(m K) */
  readonly k: number
}

/**
 * Conductance from a flat face through layers and contacts to the air, W/(m² K): resistances in series.
 * @param contacts  m² K/W each
 */
export function flatConductance(h: number, layers: readonly Crossed[], contacts: readonly number[] = []): number {
  const through = layers.reduce((sum, { thickness, k }) => sum + thickness / k, 0)
  return 1 / (1 / h + through + contacts.reduce((sum, R) => sum + R, 0))
}

/**
 * Conductance from the inside of a round wall to the air, W/(m² K) of the inside: r_i (Σ ln(r_(j+1)/r_j)/k_j + 1/(h r_o)).
 * @param inner  radius of the inside, m
 * @param layers  inside out
 */
export function roundConductance(h: number, inner: number, layers: readonly Crossed[]): number {
  let r = inner
  let R = 0
  for (const { thickness, k } of layers) {
    R += Math.log((r + thickness) / r) / k
    r += thickness
  }
  return 1 / (inner * (R + 1 / (h * r)))
}

/** Resistance of a contact as a film of air of that thickness [m], m² K/W; thicknesses are from memory. */
export function contactResistance(film: number, T_C: number): number {
  return film / filmAirConductivity(T_C)
}

/** Share of the heat of what lies behind it below which a wall's own heat may be left out. */
const THIN_SHARE = 0.02

/**
 * Whether a wall may be taken without its own heat: it holds little, and the stage is long against the time in which
 * heat crosses it (5 thickness²/diffusivity).
 * @param wall  J/(m² K), with its thickness m and diffusivity m²/s
 * @param behind  J/(m² K) of the mass behind it
 * @param duration  s
 */
export function isThinWall(
  wall: { readonly heat: number; readonly thickness: number; readonly diffusivity: number },
  behind: number,
  duration: number,
): boolean {
  return wall.heat < THIN_SHARE * behind && duration > (5 * wall.thickness ** 2) / wall.diffusivity
}
