import type { Material } from '../materials/material.ts'
import { iceCriteria } from './kinetics/ice.ts'
import { settingLaw } from './kinetics/index.ts'
import type { Level, SettingLaw } from './kinetics/law.ts'

/** Warmest and coldest temperature of the table of ice, °C, and its step, K. */
const WARM_C = 0
const COLD_C = -40
const STEP_K = 0.1

/** How far the share of ice may be off, either way (choice, after the ideal law's 5 to 10 points between −6 and −9 °C). */
const OFF: Readonly<Record<Level, number>> = { low: -0.05, typical: 0, high: 0.03 }

const tables = new WeakMap<Material, Float64Array>()

/** Rows that nothing has asked for yet are not numbers. */
function tableOf(material: Material): Float64Array {
  const known = tables.get(material)
  if (known !== undefined) return known
  const made = new Float64Array(Math.round((WARM_C - COLD_C) / STEP_K) + 1).fill(Number.NaN)
  tables.set(material, made)
  return made
}

function rowOf(table: Float64Array, material: Material, i: number): number {
  const known = table[i]!
  if (!Number.isNaN(known)) return known
  const made = material.at(COLD_C + i * STEP_K).ice_share
  table[i] = made
  return made
}

/** The ice of a material as a law: its own curve of freezing, the criteria of the law of ice. Nothing where it does not freeze. */
export function frozenLaw(material: Material, level: Level): SettingLaw | undefined {
  const { freezes_C } = material
  if (freezes_C === undefined || freezes_C >= WARM_C || freezes_C <= COLD_C) return undefined
  const general = settingLaw({ by: 'ice' }, level)
  const frozen = (T_C: number): number => {
    if (T_C >= freezes_C) return 0
    const table = tableOf(material)
    const at = Math.min(Math.max((T_C - COLD_C) / STEP_K, 0), table.length - 1)
    const i = Math.min(Math.floor(at), table.length - 2)
    const below = rowOf(table, material, i)
    return Math.max(0, below + (at - i) * (rowOf(table, material, i + 1) - below) + OFF[level])
  }
  return { ...general, extent: (_, T_C) => frozen(T_C), criteria: iceCriteria(frozen) }
}
