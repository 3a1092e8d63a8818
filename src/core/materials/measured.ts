import { type BuiltIn, builtInMass, type Measured } from './built-in.ts'
import { massLaw } from './mass-law.ts'
import type { Material } from './material.ts'

/** From this miss on a reason must stand beside it, share of the measured value. */
export const MISS_TO_EXPLAIN = 0.15

/** A published value beside the model's own. */
export interface Comparison {
  readonly property: Measured['property']
  readonly unit: Measured['unit']
  /** °C; absent where the source gives none, then the model's value is that of 20 °C. */
  readonly at_C?: number
  readonly measured: number
  readonly computed: number
  /** Computed over measured, less 1. */
  readonly error: number
  readonly source: string
  readonly certainty: Measured['certainty']
  readonly note: string
  /** Why the miss is above `MISS_TO_EXPLAIN`. */
  readonly miss?: string
}

/** Step over which a slope of enthalpy is taken, K. */
const STEP_K = 0.01
const NO_ICE = { mass: 0, slope: 0 }

/** Every published value of a built-in mass beside what its material gives; heat capacity without fat and ice, as listed. */
export function compareMeasured(given: BuiltIn, material: Material): readonly Comparison[] {
  const law = massLaw(builtInMass(given))
  const sensible = (T_C: number): number =>
    (law.enthalpyWithoutFatCrystals(T_C + STEP_K, NO_ICE) - law.enthalpyWithoutFatCrystals(T_C - STEP_K, NO_ICE)) /
    (2 * STEP_K)
  return given.measured.map(({ property, unit, at_C, value, source, certainty, note, miss }) => {
    const T_C = at_C ?? 20
    const computed = {
      k: () => material.at(T_C).k,
      rho: () => material.at(T_C).rho,
      c: () => sensible(T_C),
      'freezing point': () => material.freezes_C ?? Number.NaN,
    }[property]()
    return {
      property,
      unit,
      ...(at_C === undefined ? {} : { at_C }),
      measured: value,
      computed,
      error: computed / value - 1,
      source,
      certainty,
      note,
      ...(miss === undefined ? {} : { miss }),
    }
  })
}
