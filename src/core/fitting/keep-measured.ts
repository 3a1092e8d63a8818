import { PlanError } from '../errors.ts'
import { surroundingsOf } from '../plan/exchange.ts'
import type { Plan } from '../plan/schema/plan.ts'
import type { FittedPlan } from './fit.ts'
import { planAsFitted } from './fitted-plan.ts'
import { type Kept, nothingKept } from './kept.ts'

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
  return { ...nothingKept, surroundings, materials }
}
