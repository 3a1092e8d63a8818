import type { Plan, PlanTarget } from '../../core/plan/schema.ts'
import { writeAt } from './path.ts'

export type TargetKind = PlanTarget['kind']

const usual: Readonly<Record<TargetKind, number>> = { cooled: 5, frozen: -12, baked: 95 }

export function addTarget(plan: Plan, kind: TargetKind): Plan {
  return { ...plan, targets: [...(plan.targets ?? []), { kind, core_C: usual[kind] }] }
}

export function removeTarget(plan: Plan, index: number): Plan {
  const left = (plan.targets ?? []).toSpliced(index, 1)
  return writeAt(plan, 'targets', left.length > 0 ? left : undefined)
}

/** The same question of another kind, with that kind's usual temperature. */
export function withTargetKind(plan: Plan, index: number, kind: TargetKind): Plan {
  const target = plan.targets?.[index]
  if (target === undefined || target.kind === kind) return plan
  const next: PlanTarget = { kind, core_C: usual[kind], ...(target.by === undefined ? {} : { by: target.by }) }
  return writeAt(plan, `targets[${index}]`, next)
}

/** With a rule asked for, or no longer. */
export function withRule(plan: Plan, rule: string, wanted: boolean): Plan {
  const others = (plan.rules ?? []).filter((id) => id !== rule)
  const rules = wanted ? [...others, rule] : others
  return writeAt(plan, 'rules', rules.length > 0 ? rules : undefined)
}
