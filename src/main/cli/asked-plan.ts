import { PLAN_LIMIT, type Plan } from '../../core/plan/schema/plan.ts'
import { readText } from './input.ts'
import { withMeasured } from './measured.ts'
import { readPlan } from './read-plan.ts'
import { fidelityOf, type Words } from './words.ts'

/** What the words of a command change in the plan that they name. */
export interface PlanWords {
  /** File of what earlier fits have kept. */
  readonly measured: string | undefined
  readonly fidelity: NonNullable<Plan['fidelity']> | undefined
}

/** Throws `PlanError`. */
export function planWordsOf(words: Words): PlanWords {
  return { measured: words.text('measured'), fidelity: fidelityOf(words) }
}

/** A plan as the words want it. Throws `PlanError`. */
export async function asAsked(given: Plan, { measured, fidelity }: PlanWords): Promise<Plan> {
  const plan = await withMeasured(given, measured)
  return fidelity === undefined ? plan : { ...plan, fidelity }
}

/** The plan that a command names first, as its words want it. Throws `PlanError`. */
export async function askedPlan(words: Words, how: PlanWords = planWordsOf(words)): Promise<Plan> {
  return asAsked(readPlan(await readText(words.operands[0] ?? '-', PLAN_LIMIT)), how)
}
