/*
 * All that is known of a material, for people and for other programs: its curves over temperature, what it is made of,
 * how far published values agree, what was assumed, where it comes from.
 */

import { message } from '../messages.ts'
import type { PlanMaterial } from '../plan/schema/plan.ts'
import { POLYNOMIAL_RANGE_C } from './components.ts'
import { fixedMaterial } from './fixed.ts'
import { findBuiltIn, findMaterial } from './index.ts'
import type { Material } from './material.ts'
import { materialFromPlan } from './material-from-plan.ts'
import { type Comparison, compareMeasured } from './measured.ts'
import { findWall, type Wall } from './wall.ts'

/** Properties over temperature as columns. Shape: temperatures, from cold to warm */
export interface CardCurves {
  readonly T_C: readonly number[]
  readonly k_W_mK: readonly number[]
  /** Apparent: latent parts included. */
  readonly c_J_kgK: readonly number[]
  readonly rho_kg_m3: readonly number[]
  readonly enthalpy_J_kg: readonly number[]
  readonly ice_share: readonly number[]
  /** Of the fat, rested, on the way up. */
  readonly solid_fat_share: readonly number[]
  /** Of the fat cooled from the melt within hours; absent where that makes no difference. */
  readonly solid_fat_cooling_share?: readonly number[]
}

export interface MaterialCard {
  readonly material: Material
  readonly curves: CardCurves
  /** Where its water boils, °C; absent where boiling is left out. */
  readonly boils_C?: number
  readonly measured: readonly Comparison[]
}

/** A corner is told from both of its sides, K. */
const BESIDE_CORNER_K = 1e-3
/** Finer steps around a corner, K. */
const NEAR_CORNER_K = [0.05, 0.15, 0.3, 0.5, 0.75] as const
/** Below a freezing point ice forms fast: steps, K. */
const BELOW_FREEZING_K = [0.02, 0.1, 0.2, 0.4, 0.7, 1.5] as const
/** A round temperature so near the freezing point gives it its line, K. */
const SAME_LINE_K = 0.3
/** Where a table of a few lines is taken, °C. */
const USUAL_C = [-40, -30, -20, -15, -10, -5, -2, 0, 5, 10, 20, 30, 40, 60, 80, 95] as const

/** Temperatures between which a card shows a material, °C: where its law holds, no further than pure components do. */
export function cardRange({ validity_C }: Material): readonly [number, number] {
  const low_C = Math.max(validity_C[0], POLYNOMIAL_RANGE_C[0])
  const high_C = Math.min(validity_C[1], POLYNOMIAL_RANGE_C[1])
  return high_C > low_C ? [low_C, high_C] : validity_C
}

/** Temperatures at which curves are drawn: every degree, and close together where the law has a corner, °C. */
export function curveTemperatures(material: Material): readonly number[] {
  const [low_C, high_C] = cardRange(material)
  const whole = Array.from({ length: Math.floor(high_C) - Math.ceil(low_C) + 1 }, (_, i) => Math.ceil(low_C) + i)
  const corners = material
    .curve(low_C, high_C)
    .kinks_C.flatMap((at) => [
      at - BESIDE_CORNER_K,
      at + BESIDE_CORNER_K,
      ...NEAR_CORNER_K.flatMap((step) => [at - step, at + step]),
    ])
  const { freezes_C } = material
  const freezing = freezes_C === undefined ? [] : BELOW_FREEZING_K.map((step) => freezes_C - step)
  const all = [low_C, high_C, ...whole, ...corners, ...freezing].filter((T_C) => T_C >= low_C && T_C <= high_C)
  return [...new Set(all)].sort((a, b) => a - b)
}

/** Temperatures of a short table: round ones, and the freezing point, °C. */
export function tableTemperatures(material: Material): readonly number[] {
  const [low_C, high_C] = cardRange(material)
  const { freezes_C, baking } = material
  const hot = baking === undefined ? [] : [baking.boils_C - BESIDE_CORNER_K, baking.boils_C + BESIDE_CORNER_K, 120, 150]
  const usual = [...USUAL_C, ...hot].filter(
    (T_C) => T_C >= low_C && T_C <= high_C && !(Math.abs(T_C - (freezes_C ?? Number.NaN)) < SAME_LINE_K),
  )
  const own = usual.length < 4 ? [low_C, high_C] : []
  const all = [...usual, ...own, ...(freezes_C === undefined ? [] : [freezes_C])]
  return [...new Set(all)].sort((a, b) => a - b)
}

/** Properties at the given temperatures, in their order. */
export function curvesAt(material: Material, temperatures_C: readonly number[]): CardCurves {
  const points = temperatures_C.map((T_C) => material.at(T_C))
  const { cooling } = material
  return {
    T_C: [...temperatures_C],
    k_W_mK: points.map((point) => point.k),
    c_J_kgK: points.map((point) => point.c),
    rho_kg_m3: points.map((point) => point.rho),
    enthalpy_J_kg: points.map((point) => point.enthalpy_J_kg),
    ice_share: points.map((point) => point.ice_share),
    solid_fat_share: points.map((point) => point.solid_fat_share),
    ...(cooling === undefined
      ? {}
      : { solid_fat_cooling_share: temperatures_C.map((T_C) => cooling.at(T_C).solid_fat_share) }),
  }
}

/** A material by its name: one written in a plan, a built-in mass, or what moulds and wraps are made of. */
export function findCardMaterial(id: string, own?: PlanMaterial): Material | undefined {
  if (own !== undefined) return materialFromPlan(id, own, `materials.${id}`)
  const wall = findWall(id)
  return findMaterial(id) ?? (wall === undefined ? undefined : wallMaterial(wall))
}

function wallMaterial({ id, title, k, rho, c, source, note }: Wall): Material {
  const material = fixedMaterial({ id, title, k, rho, c, sources: [source] })
  return { ...material, notes: [...material.notes, ...(note === '' ? [] : [message('weak-point', { words: note })])] }
}

/**
 * The card of a material; nothing when none has this name.
 * @param own  the material as a plan of its own writes it; without, the built-in one of this name
 * @param temperatures_C  of its curves; as they are drawn best where left out
 * Throws: `PlanError` where the plan's own has faults.
 */
export function findCard(
  id: string,
  own: PlanMaterial | undefined,
  temperatures_C?: readonly number[],
): MaterialCard | undefined {
  const material = findCardMaterial(id, own)
  if (material === undefined) return undefined
  const builtIn = own === undefined ? findBuiltIn(id) : undefined
  return {
    material,
    curves: curvesAt(material, temperatures_C ?? curveTemperatures(material)),
    ...(material.baking === undefined ? {} : { boils_C: material.baking.boils_C }),
    measured: builtIn === undefined ? [] : compareMeasured(builtIn, material),
  }
}
