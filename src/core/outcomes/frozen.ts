import { iceShareOf } from '../materials/ice-table.ts'
import type { Material } from '../materials/material.ts'
import { iceCriteria } from './kinetics/ice.ts'
import { settingLaw } from './kinetics/index.ts'
import type { Level, SettingLaw } from './kinetics/law.ts'

/** Freezing points between which a mass counts as one that freezes, °C. */
const WARM_C = 0
const COLD_C = -40

/** How far the share of ice may be off, either way (choice, after the ideal law's 5 to 10 points between −6 and −9 °C). */
const OFF: Readonly<Record<Level, number>> = { low: -0.05, typical: 0, high: 0.03 }

/** The ice of a material as a law: its own curve of freezing, the criteria of the law of ice. Nothing where it does not freeze. */
export function frozenLaw(material: Material, level: Level): SettingLaw | undefined {
  const { freezes_C } = material
  if (freezes_C === undefined || freezes_C >= WARM_C || freezes_C <= COLD_C) return undefined
  const general = settingLaw({ by: 'ice' }, level)
  const share = iceShareOf(material)!
  const frozen = (T_C: number): number => (T_C >= freezes_C ? 0 : Math.max(0, share(T_C) + OFF[level]))
  return { ...general, extent: (_, T_C) => frozen(T_C), criteria: iceCriteria(frozen) }
}
