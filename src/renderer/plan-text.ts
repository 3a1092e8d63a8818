import { type Fault, PlanError } from '../core/errors.ts'
import { readPlan } from '../core/plan/read.ts'
import { type Plan, planSchema } from '../core/plan/schema.ts'

/** A plan out of a file's text, or what is wrong with the text. */
export type ReadText =
  | { readonly ok: true; readonly plan: Plan }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/**
 * The plan that a file's text stands for. A plan whose form is right but whose fields don't go together is opened all
 * the same: the window marks the fields, and nothing that was saved is out of reach.
 */
export function readText(text: string): ReadText {
  try {
    return { ok: true, plan: readPlan(text) }
  } catch (error) {
    if (!(error instanceof PlanError)) throw error
    const formed = planSchema.safeParse(parsed(text))
    return formed.success ? { ok: true, plan: formed.data } : { ok: false, faults: error.faults }
  }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

/** A plan as its file holds it. */
export const writeText = (plan: Plan): string => `${JSON.stringify(plan, null, 2)}\n`
