import type { Control } from '../control.ts'
import type { Course } from '../journey/course.ts'
import type { Resolution } from '../journey/resolution.ts'
import type { ResolvedPlan } from '../plan/resolve.ts'
import type { Plan } from '../plan/schema/plan.ts'
import { runVariants, type Variants } from './band.ts'
import { movedInputs } from './moved-inputs.ts'

/**
 * Where a forecast's bands come from.
 * @param nominal  the course on the grid of the runs
 */
export type BandRuns = (resolved: ResolvedPlan, nominal: Course, resolution: Resolution, control: Control) => Variants

/** A plan's own runs, each with some of its uncertain inputs moved. */
export const ownRuns =
  (plan: Plan): BandRuns =>
  (resolved, nominal, resolution, control) =>
    runVariants(movedInputs(plan, resolved), resolution, nominal, control)

/** What makes bands comparable: two plans alike differ in nothing but numbers, and in what no course depends on. */
function likeness({ title: _, startsAt: __, readings: ___, fidelity: ____, targets = [], ...plan }: Plan): string {
  const asked = targets.map((target) => ({ ...target, by: undefined }))
  return JSON.stringify({ ...plan, targets: asked }, (_key, value) => (typeof value === 'number' ? 0 : value))
}

/** Bands that are carried along while a number of the plan is turned. */
export interface KeptRuns {
  /** The plan's own runs, kept for the next. */
  own(plan: Plan): BandRuns
  /** The runs that were kept last, so that their shifts count as those of this plan; its own where it is another kind of plan. */
  carried(plan: Plan): BandRuns
}

export function keepRuns(): KeptRuns {
  let kept: { readonly like: string; readonly variants: Variants } | undefined
  const own =
    (plan: Plan): BandRuns =>
    (...run) => {
      const variants = ownRuns(plan)(...run)
      kept = { like: likeness(plan), variants }
      return variants
    }
  return {
    own,
    carried:
      (plan) =>
      (...run) =>
        kept?.like === likeness(plan) ? kept.variants : own(plan)(...run),
  }
}
