import { analyticMaterial } from '../materials/analytic.ts'
import { fixedMaterial } from '../materials/fixed.ts'
import type { Material } from '../materials/material.ts'
import type { CaseMaterial } from './case-schema.ts'
import { type Definition, type Formula, parseDefinition, parseFormula } from './formula.ts'
import { NotApplicable } from './not-applicable.ts'

/*
 * The forms in which a case gives its material: constants, formulas of temperature, a change of phase at one
 * temperature, or a food that freezes over a range.
 */

/** Density booked where a case gives only the product of density and heat capacity, kg/m³. */
const DENSITY = 1000

/** A function of one temperature from a text; the name may be written `T` or `T_C`. */
function ofTemperature(formula: Formula, constants: Readonly<Record<string, number>>): (T_C: number) => number {
  for (const name of formula.names) {
    if (name === 'T' || name === 'T_C' || Object.hasOwn(constants, name)) continue
    throw new NotApplicable(`the formula "${formula.text}" uses "${name}", which the case does not give`)
  }
  return (T_C) => formula.evaluate({ ...constants, T: T_C, T_C })
}

function conductivity(value: CaseMaterial['k_W_mK']): number | ((T_C: number) => number) {
  if (Array.isArray(value)) throw new NotApplicable('the material is a range of conductivities')
  if (value === undefined) throw new NotApplicable('the case gives no conductivity')
  return typeof value === 'string' ? ofTemperature(parseFormula(value), {}) : value
}

function single(value: number | readonly number[] | undefined, what: string): number | undefined {
  if (typeof value === 'object') throw new NotApplicable(`the material is a range of ${what}`)
  return value
}

/** Heat capacity by volume, J/(m³ K), as a number or a function; undefined where the case gives none. */
function volumetricCapacity(material: CaseMaterial): number | ((T_C: number) => number) | undefined {
  const { rho_c_J_m3K: product, c_J_kgK: c, alpha_m2_s: alpha } = material
  const rho = single(material.rho_kg_m3, 'densities')
  if (typeof product === 'string') return ofTemperature(parseFormula(product), {})
  if (product !== undefined) return product
  if (Array.isArray(c)) throw new NotApplicable('the material is a range of heat capacities')
  if (c !== undefined && rho !== undefined) {
    if (typeof c === 'number') return rho * c
    const ofT = ofTemperature(parseFormula(c), {})
    return (T_C) => rho * ofT(T_C)
  }
  const k = conductivity(material.k_W_mK)
  if (alpha !== undefined && typeof k === 'number') return k / alpha
  return undefined
}

const asFunction = (value: number | ((T_C: number) => number)): ((T_C: number) => number) =>
  typeof value === 'number' ? () => value : value

/** All latent heat at one temperature, one conductivity and heat capacity on each side of it. */
function changingAtOnce(material: CaseMaterial, id: string): Material {
  const { T_change_C: at, latent_J_kg: latent, below_T_change: below, above_T_change: above } = material
  const rho = single(material.rho_kg_m3, 'densities')
  if (at === undefined || latent === undefined || below === undefined || above === undefined || rho === undefined)
    throw new NotApplicable('the change of phase lacks T_change_C, latent_J_kg, rho_kg_m3 or a phase')
  return analyticMaterial({
    id,
    title: id,
    density: rho,
    k: (T_C) => (T_C < at ? below.k_W_mK : above.k_W_mK),
    storage: { kind: 'capacity', rho_c: (T_C) => rho * (T_C < at ? below.c_J_kgK : above.c_J_kgK) },
    corners_C: [at],
    jumps: [{ T_C: at, latent: rho * latent }],
  })
}

/** A food that freezes over a range, by its enthalpy and ice share as formulas. */
function freezingOverRange(material: CaseMaterial, id: string): Material {
  const { T_freeze_C: T_freeze, ice_fraction: ice, enthalpy_J_kg: enthalpy, k_W_mK: k } = material
  const rho = single(material.rho_kg_m3, 'densities')
  if (T_freeze === undefined || enthalpy === undefined || rho === undefined || typeof k !== 'string')
    throw new NotApplicable('the freezing law lacks T_freeze_C, rho_kg_m3, k_W_mK or enthalpy_J_kg')
  const definitions: readonly Definition[] = ice === undefined ? [] : [parseDefinition(ice)]
  const constants = { T_freeze }
  const H = ofTemperature(parseFormula(enthalpy, definitions), constants)
  const share = definitions[0]
  return analyticMaterial({
    id,
    title: id,
    density: rho,
    k: ofTemperature(parseFormula(k, definitions), constants),
    storage: { kind: 'enthalpy', enthalpy: (T_C) => rho * H(T_C) },
    corners_C: [T_freeze],
    freezes_C: T_freeze,
    ...(share === undefined ? {} : { ice: (T_C: number) => share.of(T_C, constants) }),
  })
}

/**
 * The material of a case, or of one of its layers.
 * @param steadyDiffusivity  m²/s, taken where the case gives no heat capacity because only the steady state is asked
 * Throws `NotApplicable` and `FormulaError`.
 */
export function buildCaseMaterial(material: CaseMaterial, id: string, steadyDiffusivity?: number): Material {
  if (material.phase_change === 'isothermal') return changingAtOnce(material, id)
  if (material.phase_change !== undefined)
    throw new NotApplicable(`a change of phase "${material.phase_change}" is not known; isothermal is`)
  if (material.enthalpy_J_kg !== undefined) return freezingOverRange(material, id)
  const k = conductivity(material.k_W_mK)
  let rho_c = volumetricCapacity(material)
  if (rho_c === undefined) {
    if (steadyDiffusivity === undefined) throw new NotApplicable('the case gives no heat capacity')
    rho_c = (typeof k === 'number' ? k : k(20)) / steadyDiffusivity
  }
  const density = single(material.rho_kg_m3, 'densities') ?? DENSITY
  if (typeof k === 'number' && typeof rho_c === 'number')
    return fixedMaterial({ id, title: id, k, rho: density, c: rho_c / density })
  return analyticMaterial({
    id,
    title: id,
    density,
    k: asFunction(k),
    storage: { kind: 'capacity', rho_c: asFunction(rho_c) },
  })
}

/** Heat that 1 m³ gives off from one temperature to another, J/m³. */
export function heatBetween(material: Material, from_C: number, to_C: number): number {
  return material.density * (material.at(from_C).enthalpy_J_kg - material.at(to_C).enthalpy_J_kg)
}
