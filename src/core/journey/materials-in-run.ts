import { type BakeLayer, bakeLayer } from '../baking/bake-layer.ts'
import type { Material } from '../materials/material.ts'
import { type FatLayer, fatLayer, fatSources } from '../solver/fat-cells.ts'
import { buildThermalTable, type TableSource, type ThermalTable } from '../solver/thermal-table.ts'

/** A batter kept below this neither rises nor sets within days, °C: half a per cent in a day at 40 °C in lean dough. */
const STAYS_BATTER_C = 35
/** Where fats differ on their way up and down, °C. */
const FATS_TURN_C = [-20, 50] as const

/** A material as one run uses it: its first part of the joined table, and what its cells do beside conducting. */
export interface MaterialInRun {
  readonly part: number
  /** Number of the material among those of the run. */
  readonly index: number
  readonly bakes?: BakeLayer
  readonly fat?: FatLayer
}

export interface MaterialsInRun {
  readonly table: ThermalTable
  of(material: Material): MaterialInRun
}

/** What was last made upon a table: runs that share it share all of this. */
const made = new WeakMap<ThermalTable, { readonly materials: readonly Material[]; readonly inRun: MaterialsInRun }>()

type Way = 'bakes' | 'fat' | 'plain'

/**
 * The joined table of a run's materials. What can't happen between the temperatures that the job can reach is left
 * out, so that nothing is paid for it.
 * @param causes  lowest and highest temperature among the causes of the job; driven: hotter may come
 * @param range_C  the same with room to spare, for the tables
 */
export function materialsInRun(
  materials: readonly Material[],
  causes: { readonly range_C: readonly [number, number]; readonly driven: boolean },
  range_C: readonly [number, number],
): MaterialsInRun {
  const wayOf = ({ baking, cooling, molten }: Material): Way => {
    const [low_C, high_C] = causes.driven ? range_C : causes.range_C
    if (baking !== undefined && high_C > (baking.baked ? baking.boils_C : STAYS_BATTER_C)) return 'bakes'
    const turns = low_C < FATS_TURN_C[1] && high_C > FATS_TURN_C[0] && high_C > low_C
    return cooling !== undefined && molten !== undefined && turns ? 'fat' : 'plain'
  }
  const sources: TableSource[] = []
  const firstPart = materials.map((material) => {
    const first = sources.length
    switch (wayOf(material)) {
      case 'bakes': {
        const { boils_C, crust } = material.baking!
        sources.push({ curve: material.curve, plateau_C: boils_C, byTemperature: true })
        sources.push({ curve: crust.curve, byTemperature: true })
        break
      }
      case 'fat':
        sources.push(...fatSources(material, material.cooling!, material.molten!))
        break
      case 'plain':
        sources.push(material)
        break
    }
    return first
  })
  const table = buildThermalTable(sources, ...range_C)
  const known = made.get(table)
  if (known?.materials.length === materials.length && known.materials.every((one, index) => one === materials[index]))
    return known.inRun
  const own = materials.map((material, index): MaterialInRun => {
    const part = firstPart[index]!
    const way = wayOf(material)
    return {
      part,
      index,
      ...(way === 'bakes' ? { bakes: bakeLayer(material, material.baking!, table, part, part + 1, range_C) } : {}),
      ...(way === 'fat' ? { fat: fatLayer(table, part, range_C, material, material.molten!) } : {}),
    }
  })
  const inRun: MaterialsInRun = { table, of: (material) => own[materials.indexOf(material)]! }
  made.set(table, { materials, inRun })
  return inRun
}
