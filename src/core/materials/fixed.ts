import { message } from '../messages.ts'
import type { Look, Material } from './material.ts'

export interface FixedInput {
  readonly id: string
  readonly title: string
  readonly look?: Look
  /** W/(m K) */
  readonly k: number
  /** kg/m³ */
  readonly rho: number
  /** J/(kg K) */
  readonly c: number
  readonly sources?: readonly string[]
}

/** A material whose properties do not change with temperature; its enthalpy is zero at 0 °C. */
export function fixedMaterial({ id, title, look = 'plain', k, rho, c, sources = [] }: FixedInput): Material {
  return {
    id,
    title,
    look,
    density: rho,
    validity_C: [-273.15, 1000],
    curve: (low_C, high_C) => ({
      T_C: Float64Array.of(low_C, high_C),
      enthalpy: Float64Array.of(rho * c * low_C, rho * c * high_C),
      conductivityIntegral: Float64Array.of(k * low_C, k * high_C),
      kinks_C: [],
    }),
    at: (T_C) => ({ T_C, k, rho, c, enthalpy_J_kg: c * T_C, ice_share: 0, solid_fat_share: 0 }),
    notes: [message('fixed-properties')],
    sources,
  }
}
