import type { Plan } from './schema/plan.ts'

/** A plan as its file holds it; read and written again it is the same, byte for byte. */
export const writePlan = (plan: Plan): string => `${JSON.stringify(plan, null, 2)}\n`
