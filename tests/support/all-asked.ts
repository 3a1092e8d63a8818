import { ruleIds } from '../../src/core/outcomes/rules.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'

/** Every kind of target. */
export const allTargets: NonNullable<Plan['targets']> = [
  { kind: 'set' },
  { kind: 'unmould' },
  { kind: 'coat', humidity_pct: 60 },
  { kind: 'cut' },
  { kind: 'stay' },
  { kind: 'edge' },
  { kind: 'cooled', core_C: 5 },
  { kind: 'frozen', core_C: -10 },
  { kind: 'baked', core_C: 95 },
]

/** A plan with every published rule and every kind of target asked of it. */
export const withAllAsked = (plan: Plan): Plan => ({
  ...plan,
  rules: [...ruleIds] as NonNullable<Plan['rules']>,
  targets: allTargets,
})
