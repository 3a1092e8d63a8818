import { PlanError } from '../errors.ts'
import { surroundingsOf } from '../plan/exchange.ts'
import { formFaults } from '../plan/faults.ts'
import type { JsonSchema } from '../plan/json-schema.ts'
import { KEPT_VERSION, keptSchema } from '../plan/kept-schema.ts'
import { findNewer } from '../plan/migrations/bring-up.ts'
import { isObject } from '../plan/migrations/migration.ts'
import type { Plan, PlanMaterial, PlanStage, PlanSurroundings } from '../plan/schema.ts'
import { z } from '../zod.ts'
import type { FittedPlan } from './fit.ts'
import { planAsFitted } from './fitted-plan.ts'

/*
 * What a fit found, kept for later plans: surroundings ("my freezer") and materials ("my sponge") with what was
 * measured of them. A plan of the same surroundings or material, of whatever size and shape, takes them from there.
 */

export type Kept = z.infer<typeof keptSchema>

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

/**
 * Surroundings and materials of which a fit has determined something.
 * Throws: `PlanError` where it determined nothing, or its readings fit no plausible piece.
 */
export function keepMeasured(plan: Plan, fitted: FittedPlan, on = plan.title): Kept {
  const { fit, drawing } = fitted
  const refuse = (problem: string): PlanError =>
    new PlanError([{ path: 'readings', problem, remedy: 'measure more, where and while it changes' }])
  if (!fit.explained) throw refuse('fit no plausible piece, so nothing is kept of them')
  const told = [...fit.factors, ...fit.derived].filter(({ determined }) => determined !== 'not')
  const tells = (kinds: readonly string[], of: string): boolean =>
    told.some((one) => kinds.includes(one.kind) && one.of === of)
  const as = planAsFitted(plan, fitted, on)
  const airs = [...new Set(drawing.airs)].filter((key) =>
    tells(['film', 'film of a face', 'air temperature', 'power'], key),
  )
  const surroundings = airs.map((key) => {
    const name = fitted.resolved.job.stages[drawing.airs.indexOf(key)]!.name
    const stage = as.stages.find((one) => one.name === name)!
    return { name: `${name}, as on: ${on}`.slice(0, 120), in: surroundingsOf(stage) }
  })
  const materials = Object.entries(as.materials ?? {}).flatMap(([id, material]) =>
    material.measured !== undefined && tells(['conductivity', 'heat', 'diffusivity'], id) ? [{ id, material }] : [],
  )
  if (surroundings.length + materials.length === 0) throw refuse('determine nothing that could be kept')
  return { format: 'thickset-measured', version: KEPT_VERSION, surroundings, materials }
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

/** A plan with what was measured elsewhere, and what of it was used. */
export interface WithKept {
  readonly plan: Plan
  /** Stages and materials that took something over. */
  readonly stages: readonly string[]
  readonly materials: readonly string[]
}

/** The plan with everything that was measured of its surroundings and materials. */
export function withKept(plan: Plan, kept: Kept): WithKept {
  const measured = (given: PlanSurroundings): PlanSurroundings | undefined =>
    kept.surroundings.find((one) => alike(one.in, given))?.in
  const stages = plan.stages.map((stage): PlanStage => {
    const found = measured(surroundingsOf(stage))?.measured
    return found === undefined ? stage : { ...stage, in: { ...surroundingsOf(stage), measured: found } }
  })
  const used = [...(plan.piece.lining ?? []), ...plan.piece.fill, ...(plan.piece.inserts ?? [])].map(
    ({ material }) => material,
  )
  const poured = plan.stages.flatMap(({ start = [] }) =>
    start.flatMap((action) => (action.do === 'pour' || action.do === 'coat' ? [action.material] : [])),
  )
  const taken = [...new Set([...used, ...poured])].flatMap((id): [string, PlanMaterial][] => {
    const own = plan.materials?.[id] ?? { like: id }
    const found = kept.materials.find((one) => one.id === id && alike(one.material, own))?.material.measured
    return found === undefined ? [] : [[id, { ...own, measured: found }]]
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
