import type { Material } from './material.ts'

/* The ice of a material over temperature, for whatever asks it of every place at every moment. */

/** Coldest and warmest temperature of the table, °C, and its rows a kelvin. */
const COLD_C = -60
const WARM_C = 0.5
const PER_K = 10
const ROWS = Math.round((WARM_C - COLD_C) * PER_K) + 1

const tables = new WeakMap<Material, Float64Array>()

/** Rows that nothing has asked for yet are not numbers. */
function tableOf(material: Material): Float64Array {
  const known = tables.get(material)
  if (known !== undefined) return known
  const made = new Float64Array(ROWS).fill(Number.NaN)
  tables.set(material, made)
  return made
}

/**
 * Share of the water of a material that is ice, 0 to 1, over temperature (°C): straight lines between tenths of a kelvin,
 * from −60 °C up; colder as at −60 °C. Nothing for what does not freeze.
 */
export function iceShareOf(material: Material): ((T_C: number) => number) | undefined {
  const { freezes_C } = material
  if (freezes_C === undefined) return undefined
  const table = tableOf(material)
  const row = (i: number): number => {
    if (Number.isNaN(table[i]!)) table[i] = material.at(COLD_C + i / PER_K).ice_share
    return table[i]!
  }
  return (T_C) => {
    if (T_C >= freezes_C) return 0
    const at = Math.min(Math.max((T_C - COLD_C) * PER_K, 0), ROWS - 1)
    const i = Math.min(Math.floor(at), ROWS - 2)
    const below = row(i)
    return below + (at - i) * (row(i + 1) - below)
  }
}
