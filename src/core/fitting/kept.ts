import { PlanError } from '../errors.ts'
import { surroundingsOf } from '../plan/exchange.ts'
import { formFaults } from '../plan/faults.ts'
import type { JsonSchema } from '../plan/json-schema.ts'
import { KEPT_VERSION, keptSchema } from '../plan/kept-schema.ts'
import { findNewer } from '../plan/migrations/bring-up.ts'
import { isObject } from '../plan/migrations/migration.ts'
import type { Plan, PlanMaterial, PlanStage, PlanSurroundings } from '../plan/schema/plan.ts'
import { z } from '../zod.ts'

/*
 * What a fit found, kept for later plans: surroundings ("my freezer") and materials ("my sponge") with what was
 * measured of them. A plan of the same surroundings or material, of whatever size and shape, takes them from there.
 */

export type Kept = z.infer<typeof keptSchema>

export const nothingKept: Kept = { format: 'thickset-measured', version: KEPT_VERSION, surroundings: [], materials: [] }

/** Whether two are the same but for what was measured of them, whatever order their keys have. */
function alike(one: object, other: object): boolean {
  const plain = (value: unknown): unknown =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.fromEntries(
          Object.entries(value)
            .filter(([key]) => key !== 'measured')
            .map(([key, inner]) => [key, plain(inner)] as const)
            .sort(([a], [b]) => (a < b ? -1 : 1)),
        )
      : value
  return JSON.stringify(plain(one)) === JSON.stringify(plain(other))
}

/** Both, the newer in place of the older of the same thing. */
export function joinKept(older: Kept, newer: Kept): Kept {
  return {
    ...newer,
    surroundings: [
      ...older.surroundings.filter((one) => !newer.surroundings.some((other) => alike(one.in, other.in))),
      ...newer.surroundings,
    ],
    materials: [
      ...older.materials.filter(
        (one) => !newer.materials.some((other) => one.id === other.id && alike(one.material, other.material)),
      ),
      ...newer.materials,
    ],
  }
}

/** The one without what stands in the other, word for word. */
export function withoutKept(kept: Kept, gone: Kept): Kept {
  const left = <One>(all: readonly One[], some: readonly One[]): One[] => {
    const written = some.map((one) => JSON.stringify(one))
    return all.filter((one) => !written.includes(JSON.stringify(one)))
  }
  return {
    ...kept,
    surroundings: left(kept.surroundings, gone.surroundings),
    materials: left(kept.materials, gone.materials),
  }
}

/** What was measured of just these surroundings; nothing where they are others. */
export const keptOf = (kept: Kept, given: PlanSurroundings): Kept['surroundings'][number] | undefined =>
  kept.surroundings.find((one) => alike(one.in, given))

/** What was measured of just this material; nothing where it is another, or made otherwise. */
export const keptMaterialOf = (kept: Kept, plan: Plan, id: string): Kept['materials'][number] | undefined =>
  kept.materials.find((one) => one.id === id && alike(one.material, plan.materials?.[id] ?? { like: id }))

/** A plan with what was measured elsewhere, and what of it was used. */
export interface WithKept {
  readonly plan: Plan
  /** Stages and materials that took something over. */
  readonly stages: readonly string[]
  readonly materials: readonly string[]
}

/** The plan with everything that was measured of its surroundings and materials. */
export function withKept(plan: Plan, kept: Kept): WithKept {
  const stages = plan.stages.map((stage): PlanStage => {
    const found = keptOf(kept, surroundingsOf(stage))?.in.measured
    return found === undefined ? stage : { ...stage, in: { ...surroundingsOf(stage), measured: found } }
  })
  const used = [...(plan.piece.lining ?? []), ...plan.piece.fill, ...(plan.piece.inserts ?? [])].map(
    ({ material }) => material,
  )
  const poured = plan.stages.flatMap(({ start = [] }) =>
    start.flatMap((action) => (action.do === 'pour' || action.do === 'coat' ? [action.material] : [])),
  )
  const taken = [...new Set([...used, ...poured])].flatMap((id): [string, PlanMaterial][] => {
    const found = keptMaterialOf(kept, plan, id)?.material.measured
    return found === undefined ? [] : [[id, { ...(plan.materials?.[id] ?? { like: id }), measured: found }]]
  })
  return {
    plan: {
      ...plan,
      stages,
      ...(taken.length === 0 ? {} : { materials: { ...plan.materials, ...Object.fromEntries(taken) } }),
    },
    stages: stages.filter((stage, index) => stage !== plan.stages[index]).map(({ name }) => name),
    materials: taken.map(([id]) => id),
  }
}

/** A file of kept measurements. Throws: `PlanError` with everything that is wrong in it. */
export function readKept(value: unknown): Kept {
  const newer = isObject(value) && value.format === 'thickset-measured' ? findNewer(value, KEPT_VERSION) : undefined
  if (newer !== undefined) throw new PlanError([newer])
  const read = keptSchema.safeParse(value)
  if (read.success) return read.data
  const form = formFaults(value, read.error.issues, z.toJSONSchema(keptSchema) as JsonSchema)
  throw new PlanError(form.map(({ fault }) => fault))
}
