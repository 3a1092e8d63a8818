import { type Fault, PlanError } from '../errors.ts'
import { type Message, message } from '../messages.ts'
import type { PlanMaterial } from '../plan/schema/plan.ts'
import { type Composition, type Mass, structureOf } from './composition.ts'
import { fixedMaterial } from './fixed.ts'
import { getMaterial } from './index.ts'
import { keepingOf } from './keeping.ts'
import { lookOf, massMaterial } from './mass-material.ts'
import type { Material } from './material.ts'
import { pouringOf } from './pouring.ts'
import { recipeFaults, recipeMaterial } from './recipe-from-plan.ts'
import { scaled } from './scaled.ts'
import { tableMaterial } from './table.ts'

/** kg of ash per mol of dissolved particles where nothing is known: dairy with some salt. */
const MIXED_ASH_KG_MOL = 0.045
/** Water activity in the pores where nothing is known. */
const PORE_AW = 0.95
/** How far from 100 a composition may add up and still be scaled, per cent. */
const SUM_SLACK_PCT = 5

/**
 * A material written in a plan.
 * @param id  its name in the plan
 * @param path  of the material in the plan, for faults: `materials.my-cream`
 * Throws: `PlanError` with every fault found.
 */
export function materialFromPlan(id: string, given: PlanMaterial, path: string): Material {
  const faults = findMaterialFaults(given, path)
  if (faults.length > 0) throw new PlanError(faults)
  const { keeping, pours, sets, measured } = given
  const { k_times: k = 1, heat_times: heat = 1 } = measured ?? {}
  const thermal = thermalMaterial(id, given)
  return {
    ...(k === 1 && heat === 1 ? thermal : scaled(thermal, { k, heat })),
    ...(pours === undefined ? {} : { pours: pouringOf(pours) }),
    ...(keeping === undefined ? {} : { keeping: keepingOf(keeping) }),
    ...(sets === undefined ? {} : { sets }),
  }
}

function thermalMaterial(id: string, given: PlanMaterial): Material {
  if ('fixed' in given) {
    const { k_W_mK, rho_kg_m3, c_J_kgK } = given.fixed
    return fixedMaterial({ id, title: id, k: k_W_mK, rho: rho_kg_m3, c: c_J_kgK })
  }
  if ('table' in given) {
    const { rho_kg_m3, T_C, enthalpy_J_kg, k_W_mK } = given.table
    return tableMaterial({ id, title: id, rho: rho_kg_m3, T_C, enthalpy_J_kg, k: k_W_mK })
  }
  if ('recipe' in given) return recipeMaterial(id, given)
  if ('like' in given) {
    const built = getMaterial(given.like)
    return id === given.like ? built : { ...built, id, title: id }
  }
  return compositionMaterial(id, given)
}

/** What the schema can't see: faults between the fields of a material. */
export function findMaterialFaults(given: PlanMaterial, path: string): readonly Fault[] {
  if ('table' in given) return tableFaults(given.table, `${path}.table`)
  if ('recipe' in given) return recipeFaults(given, path)
  if ('composition_pct' in given) {
    const total = Object.values(given.composition_pct).reduce((sum, share) => sum + (share ?? 0), 0)
    if (Math.abs(total - 100) > SUM_SLACK_PCT)
      return [
        {
          path: `${path}.composition_pct`,
          problem: `the shares add up to ${Number(total.toFixed(2))}`,
          remedy: `per cent of the mass without air: they must add up to 100, give or take ${SUM_SLACK_PCT}`,
        },
      ]
  }
  return []
}

type PlanTable = Extract<PlanMaterial, { table: unknown }>['table']

function tableFaults({ T_C, enthalpy_J_kg, k_W_mK }: PlanTable, path: string): readonly Fault[] {
  const faults: Fault[] = []
  const points = T_C.length
  for (const [key, column] of Object.entries({ enthalpy_J_kg, k_W_mK }))
    if (column.length !== points)
      faults.push({
        path: `${path}.${key}`,
        problem: `has ${column.length} values, T_C has ${points}`,
        remedy: 'give one value for each temperature',
      })
  const fall = T_C.findIndex((T, i) => i > 0 && T < T_C[i - 1]!)
  if (fall > 0)
    faults.push({ path: `${path}.T_C[${fall}]`, problem: 'falls', remedy: 'list the temperatures from cold to warm' })
  const flat = enthalpy_J_kg.findIndex((H, i) => i > 0 && H <= enthalpy_J_kg[i - 1]!)
  if (flat > 0)
    faults.push({
      path: `${path}.enthalpy_J_kg[${flat}]`,
      problem: 'does not rise',
      remedy: 'enthalpy must rise from point to point',
    })
  if (T_C[0] === T_C[points - 1])
    faults.push({ path: `${path}.T_C`, problem: 'is one temperature only', remedy: 'give two different ones at least' })
  return faults
}

type PlanComposition = Extract<PlanMaterial, { composition_pct: unknown }>

function compositionMaterial(id: string, given: PlanComposition): Material {
  const notes: Message[] = []
  const parts = { protein: 0, fat: 0, sugars: 0, starch: 0, fibre: 0, ash: 0, ...given.composition_pct }
  const total = Object.values(parts).reduce((sum, share) => sum + share, 0)
  if (Math.abs(total - 100) > 0.05) notes.push(message('composition-scaled', { sum_pct: total }))
  if (parts.sugars > 0) notes.push(message('sugars-as-sucrose'))
  if (parts.ash > 0) notes.push(message('ash-as-mixed'))
  const composition: Composition = {
    water: parts.water / total,
    protein: parts.protein / total,
    fat: parts.fat / total,
    sugars: { sucrose: parts.sugars / total },
    starch: parts.starch / total,
    fibre: parts.fibre / total,
    ash: parts.ash / total,
    alcohol: 0,
    polyols: {},
    other: 0,
    salt: 0,
    crystals: 0,
  }
  const mass: Mass = {
    composition,
    structure: structureOf(composition),
    ash_kg_mol: MIXED_ASH_KG_MOL,
    syrup_DE: 42,
    fat_kinds: {},
    porosity: (given.air_pct ?? 0) / 100,
    pore_aw: PORE_AW,
  }
  const { rises_to: mostGrowth } = given
  return massMaterial({
    id,
    title: id,
    look: lookOf(mass),
    mass,
    ...(mostGrowth === undefined ? {} : { baking: { baked: false, mostGrowth, leavening: 0 } }),
    notes,
    sources: [],
  })
}
