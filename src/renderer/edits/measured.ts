import { type Kept, keptMaterialOf, withKept } from '../../core/fitting/kept.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { writeAt } from './path.ts'
import { withFigure } from './stages.ts'

/** A stage in surroundings that were measured, as they were then. */
export const withKeptSurroundings = (plan: Plan, index: number, kept: Kept['surroundings'][number]): Plan =>
  writeAt(plan, `stages[${index}].in`, kept.in)

/** A stage with what was measured of just its surroundings. */
export const withMeasuredAir = (plan: Plan, index: number, kept: Kept['surroundings'][number]): Plan =>
  withFigure(plan, index, 'measured', kept.in.measured)

/** A stage in surroundings as they are said to be, whatever was measured. */
export const withoutMeasuredAir = (plan: Plan, index: number): Plan => withFigure(plan, index, 'measured', undefined)

/** A material with what was measured of it. */
export function withMeasuredMaterial(plan: Plan, kept: Kept, id: string): Plan {
  const found = keptMaterialOf(kept, plan, id)
  return found === undefined ? plan : { ...plan, materials: { ...plan.materials, [id]: found.material } }
}

/** A material as its table has it; a name that then stands for the built-in one goes. */
export function withoutMeasuredMaterial(plan: Plan, id: string): Plan {
  const { [id]: own, ...others } = plan.materials ?? {}
  if (own?.measured === undefined) return plan
  const { measured: _, ...rest } = own
  if ('like' in rest && rest.like === id && Object.keys(rest).length === 1) {
    const { materials: __, ...bare } = plan
    return Object.keys(others).length === 0 ? bare : { ...plan, materials: others }
  }
  return { ...plan, materials: { ...plan.materials, [id]: rest } }
}

/** How many stages and materials of a plan are found among what was measured, and are not yet as measured. */
export function couldTake(plan: Plan, kept: Kept): number {
  const taken = withKept(plan, kept)
  const same = JSON.stringify(taken.plan) === JSON.stringify(plan)
  return same ? 0 : taken.stages.length + taken.materials.length
}

/** The plan with everything that was measured of its surroundings and materials. */
export const withAllMeasured = (plan: Plan, kept: Kept): Plan => withKept(plan, kept).plan
