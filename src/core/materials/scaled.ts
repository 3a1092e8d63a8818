import type { Material } from './material.ts'

/** Factors on a material's law: on its conductivity, and on all heat that it stores, latent heat included. */
export interface Scale {
  readonly k: number
  readonly heat: number
}

/** The same material with its conductivity and its stored heat multiplied; density, freezing point and title stay. */
export function scaled(material: Material, { k, heat }: Scale): Material {
  return {
    ...material,
    curve: (low_C, high_C) => {
      const curve = material.curve(low_C, high_C)
      return {
        ...curve,
        enthalpy: curve.enthalpy.map((value) => value * heat),
        conductivityIntegral: curve.conductivityIntegral.map((value) => value * k),
      }
    },
    at: (T_C) => {
      const properties = material.at(T_C)
      return {
        ...properties,
        k: properties.k * k,
        c: properties.c * heat,
        enthalpy_J_kg: properties.enthalpy_J_kg * heat,
      }
    },
  }
}
