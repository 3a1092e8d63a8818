import data from '../../../../shared/growth/killing.json'
import { fromFahrenheit } from '../../units.ts'
import { z } from '../../zod.ts'
import type { History } from '../cooling-rule.ts'
import { along, SAME_K } from '../crossing.ts'

const certainty = z.enum(['seen in the source', 'partly seen', 'from memory', 'estimate'])

/** A killing by heat that is asked for: a row of shared/growth/killing.json. */
const targetSchema = z.strictObject({
  id: z.string(),
  title: z.string(),
  reference_C: z.number(),
  z_K: z.number().gt(0),
  /** Below this nothing is credited, °C. */
  floor_C: z.number(),
  /** Minutes for a power of ten at the reference temperature. */
  D_min: z.number().gt(0),
  asked_min: z.number().gt(0).exactOptional(),
  asked_log10: z.number().gt(0).exactOptional(),
  source: z.string(),
  certainty,
})
const tableSchema = z.strictObject({
  id: z.string(),
  title: z.string(),
  source: z.string(),
  certainty,
  note: z.string(),
  rows: z.array(z.strictObject({ product: z.string(), T_F: z.number(), min: z.number().min(0) })),
})

export type KillingTarget = z.infer<typeof targetSchema>
/** A table that asks for an unbroken stay at or above a temperature. */
export type StayTable = z.infer<typeof tableSchema>

export const killingTargets: readonly KillingTarget[] = z.array(targetSchema).parse(data.targets)
export const stayTables: readonly StayTable[] = z.array(tableSchema).parse(data.tables)

/** A target; nothing when there is none of this id. */
export function findKilling(id: string): KillingTarget | undefined {
  return killingTargets.find((target) => target.id === id)
}

/** Minutes at the reference temperature that a history is worth: the integral of 10^((T − reference)/z), exact on straight lines. */
export function killingMinutes(
  { reference_C, z_K, floor_C }: Pick<KillingTarget, 'reference_C' | 'z_K' | 'floor_C'>,
  { t, T_C }: History,
): number {
  const at = (T: number): number => 10 ** ((T - reference_C) / z_K)
  let sum = 0
  for (let i = 1; i < t.length; i++) {
    let [t0, t1, from, to] = [t[i - 1]!, t[i]!, T_C[i - 1]!, T_C[i]!]
    if (from < floor_C && to < floor_C) continue
    if (from < floor_C) {
      t0 = along(t0, t1, from, to, floor_C)
      from = floor_C
    } else if (to < floor_C) {
      t1 = along(t0, t1, from, to, floor_C)
      to = floor_C
    }
    const minutes = (t1 - t0) / 60
    sum +=
      Math.abs(to - from) < 1e-6
        ? minutes * at((from + to) / 2)
        : (minutes * (at(to) - at(from)) * z_K) / (Math.LN10 * (to - from))
  }
  return sum
}

/** Powers of ten killed in so many minutes at the reference temperature. */
export const killedLog10 = ({ D_min }: Pick<KillingTarget, 'D_min'>, minutes: number): number => minutes / D_min

/** Whether so many minutes are what is asked. */
export function isKilled(target: KillingTarget, minutes: number): boolean {
  const { asked_min, asked_log10 = 0, D_min } = target
  return minutes >= (asked_min ?? asked_log10 * D_min) * (1 - 1e-9)
}

/** The longest unbroken stay at or above a temperature, s. */
export function longestStay({ t, T_C }: History, level_C: number): number {
  const level = level_C - SAME_K
  let longest = 0
  let since: number | undefined = T_C[0]! >= level ? t[0]! : undefined
  for (let i = 1; i < t.length; i++) {
    const from = T_C[i - 1]!
    const to = T_C[i]!
    if (since === undefined && to >= level) since = along(t[i - 1]!, t[i]!, from, to, level)
    if (since === undefined) continue
    const until = to >= level ? t[i]! : along(t[i - 1]!, t[i]!, from, to, level)
    longest = Math.max(longest, until - since)
    if (to < level) since = undefined
  }
  return longest
}

/** Rows of a table for a product that a history keeps: a stay as long as the row says, unbroken. */
export function rowsKept({ rows }: Pick<StayTable, 'rows'>, product: string, history: History): StayTable['rows'] {
  return rows.filter((row) => {
    if (row.product !== product) return false
    const level_C = fromFahrenheit(row.T_F)
    const reached = Array.from(history.T_C).some((T_C) => T_C >= level_C - SAME_K)
    return reached && longestStay(history, level_C) >= 60 * row.min - 1e-3
  })
}
