import type { Baking, Material, ThermalCurve } from './material.ts'
import { thinned } from './pouring.ts'

/** Factors on a material's law: on its conductivity, and on all heat that it stores, latent heat included. */
export interface Scale {
  readonly k: number
  readonly heat: number
  /** How much thinner a mass that pours is than its class; 0: it has no currents at all. 1 if left out. */
  readonly flow?: number
}

/** A curve with both columns multiplied, when they are asked for: tables are multiplied rather than drawn again. */
export function scaledCurve(curve: ThermalCurve, { k, heat }: Scale): ThermalCurve {
  let enthalpy: Float64Array | undefined
  let conductivityIntegral: Float64Array | undefined
  return {
    T_C: curve.T_C,
    kinks_C: curve.kinks_C,
    get enthalpy() {
      enthalpy ??= curve.enthalpy.map((value) => value * heat)
      return enthalpy
    },
    get conductivityIntegral() {
      conductivityIntegral ??= curve.conductivityIntegral.map((value) => value * k)
      return conductivityIntegral
    },
    scaledFrom: { curve, k, heat },
  }
}

/** Water and growth stay; what evaporation takes counts as stored heat. */
function scaledBaking(baking: Baking, scale: Scale): Baking {
  const { k, heat } = scale
  return {
    ...baking,
    scaledFrom: { baking, k },
    evaporation: baking.evaporation * heat,
    moistConductivity: (T_C, set, growth) => k * baking.moistConductivity(T_C, set, growth),
    crustConductivity: (T_C, growth) => k * baking.crustConductivity(T_C, growth),
    crust: {
      curve: (low_C, high_C) => scaledCurve(baking.crust.curve(low_C, high_C), scale),
      enthalpy: (T_C) => heat * baking.crust.enthalpy(T_C),
      c: (T_C) => heat * baking.crust.c(T_C),
    },
  }
}

/** The same material with its conductivity and its stored heat multiplied; density, freezing point and title stay. */
export function scaled(material: Material, scale: Scale): Material {
  const { k, heat } = scale
  const { baking, cooling, molten } = material
  const { pours, ...rest } = material
  const flow = scale.flow ?? 1
  return {
    ...rest,
    scaledFrom: material.scaledFrom ?? material,
    ...(pours === undefined || flow === 0 ? {} : { pours: flow === 1 ? pours : thinned(pours, flow) }),
    curve: (low_C, high_C) => scaledCurve(material.curve(low_C, high_C), scale),
    at: (T_C) => {
      const properties = material.at(T_C)
      return {
        ...properties,
        k: properties.k * k,
        c: properties.c * heat,
        enthalpy_J_kg: properties.enthalpy_J_kg * heat,
      }
    },
    ...(baking === undefined ? {} : { baking: scaledBaking(baking, scale) }),
    ...(cooling === undefined ? {} : { cooling: scaled(cooling, scale) }),
    ...(molten === undefined ? {} : { molten: scaled(molten, scale) }),
  }
}
