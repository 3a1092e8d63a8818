import type { Material } from './material.ts'

/** What a plan calls a closed layer of air, or a hollow. */
export const AIR_LAYER = 'air'

/** Dry air at 20 °C, W/(m K), kg/m³, J/(kg K); from memory. Nothing is computed from them: air rooms have laws. */
const [K, DENSITY, HEAT] = [0.0257, 1.204, 1006]

/** Air between layers of a piece, or in its hollow: it holds no heat and weighs nothing, heat crosses it. */
export const airLayer: Material = {
  id: AIR_LAYER,
  title: 'Air',
  look: 'air',
  empty: true,
  density: DENSITY,
  validity_C: [-60, 350],
  curve: (low_C, high_C) => ({
    T_C: Float64Array.of(low_C, high_C),
    enthalpy: Float64Array.of(DENSITY * HEAT * low_C, DENSITY * HEAT * high_C),
    conductivityIntegral: Float64Array.of(K * low_C, K * high_C),
    kinks_C: [],
  }),
  at: (T_C) => ({
    T_C,
    k: K,
    rho: DENSITY,
    c: HEAT,
    enthalpy_J_kg: HEAT * T_C,
    ice_share: 0,
    solid_fat_share: 0,
  }),
  notes: [],
  sources: [],
}
