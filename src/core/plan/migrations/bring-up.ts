import type { Fault } from '../../errors.ts'
import { type Message, message } from '../../messages.ts'
import { PLAN_VERSION } from '../schema/plan.ts'
import { isObject, type JsonObject } from './migration.ts'
import { migrations } from './registry.ts'

/** What a file holds as the present version writes it, and what there is to tell of that; or why it can't be had. */
export interface BroughtUp {
  readonly value: unknown
  readonly notes: readonly Message[]
  readonly fault?: Fault
}

const isVersion = (version: unknown): version is number => Number.isInteger(version) && Number(version) >= 0

/** The fault of a file that a newer program wrote; nothing for one of the present version, or older. */
export function findNewer(value: JsonObject, known: number): Fault | undefined {
  const { version } = value
  if (!isVersion(version) || version <= known) return undefined
  return {
    path: 'version',
    problem: `is ${version}, and this program reads up to ${known}: a newer one wrote the file`,
    remedy: `open it with a newer Thickset; this one leaves it as it is`,
  }
}

/** The JSON of a plan file, step by step, as the present version writes it. */
export function broughtUp(value: unknown): BroughtUp {
  if (!isObject(value) || value.format !== 'thickset-plan') return { value, notes: [] }
  const fault = findNewer(value, PLAN_VERSION)
  if (fault !== undefined) return { value, notes: [], fault }
  const { version } = value
  if (!isVersion(version) || version === PLAN_VERSION) return { value, notes: [] }
  const plan = migrations
    .slice(version)
    .reduce<JsonObject>((older, { from, change }) => ({ ...change(older), version: from + 1 }), value)
  return { value: plan, notes: [message('plan-brought-up', { from: version, to: PLAN_VERSION })] }
}
