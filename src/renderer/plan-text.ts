import type { Fault } from '../core/errors.ts'
import type { Message } from '../core/messages.ts'
import { openPlan } from '../core/plan/read.ts'
import type { Plan } from '../core/plan/schema/plan.ts'

/** A plan out of a file's text and what there is to tell of it, or what is wrong with the text. */
export type ReadText =
  | { readonly ok: true; readonly plan: Plan; readonly notes: readonly Message[] }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/**
 * The plan that a file's text stands for. A plan whose form is right but whose fields don't go together is opened all
 * the same: the window marks the fields, and nothing that was saved is out of reach.
 */
export function readText(text: string): ReadText {
  const { plan, faults, notes } = openPlan(text)
  return plan === undefined ? { ok: false, faults } : { ok: true, plan, notes }
}
