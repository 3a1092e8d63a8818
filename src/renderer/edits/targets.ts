import type { Plan, PlanTarget } from '../../core/plan/schema/plan.ts'
import { writeAt } from './path.ts'

export type TargetKind = PlanTarget['kind']

/** A temperature for questions that need one. */
const usual: Readonly<Partial<Record<TargetKind, number>>> = { cooled: 5, frozen: -12, baked: 95 }

function newTarget(kind: TargetKind, by?: string): PlanTarget {
  const core_C = usual[kind]
  // The schema ties figures to kinds; a table of kinds cannot say so.
  return { kind, ...(core_C === undefined ? {} : { core_C }), ...(by === undefined ? {} : { by }) } as PlanTarget
}

export function addTarget(plan: Plan, kind: TargetKind): Plan {
  return { ...plan, targets: [...(plan.targets ?? []), newTarget(kind)] }
}

export function removeTarget(plan: Plan, index: number): Plan {
  const left = (plan.targets ?? []).toSpliced(index, 1)
  return writeAt(plan, 'targets', left.length > 0 ? left : undefined)
}

/** The same question of another kind, with that kind's usual temperature. */
export function withTargetKind(plan: Plan, index: number, kind: TargetKind): Plan {
  const target = plan.targets?.[index]
  if (target === undefined || target.kind === kind) return plan
  return writeAt(plan, `targets[${index}]`, newTarget(kind, target.by))
}

/** With a rule asked for, or no longer. */
export function withRule(plan: Plan, rule: string, wanted: boolean): Plan {
  const others = (plan.rules ?? []).filter((id) => id !== rule)
  const rules = wanted ? [...others, rule] : others
  return writeAt(plan, 'rules', rules.length > 0 ? rules : undefined)
}
