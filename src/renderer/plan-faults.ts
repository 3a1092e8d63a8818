import type { Fault } from '../core/errors.ts'
import { findPlanFaults } from '../core/plan/read.ts'
import type { Plan } from '../core/plan/schema/plan.ts'
import { useForecast } from './forecast-client.ts'
import { usePlan } from './plan-store.ts'

const found = new WeakMap<Plan, readonly Fault[]>()

/** What keeps a plan from being computed; looked for once a plan. */
export function faultsOf(plan: Plan): readonly Fault[] {
  const known = found.get(plan)
  if (known !== undefined) return known
  const faults = findPlanFaults(plan)
  found.set(plan, faults)
  return faults
}

const none: readonly Fault[] = []

/** Faults of the plan being edited: those of its own and, where there are none, those that the computation met. */
export function usePlanFaults(): readonly Fault[] {
  const plan = usePlan(({ history }) => history?.present)
  const met = useForecast(({ faults }) => faults)
  if (plan === undefined) return none
  const own = faultsOf(plan)
  return own.length > 0 ? own : met
}

/** The fault of one field, if any. */
export function useFieldFault(path: string): Fault | undefined {
  return usePlanFaults().find((fault) => fault.path === path)
}

const leaf = /(_mm|_C|_h|_m2|_W_m2K|\.clock|\.by|startsAt|\.[xyz])$/

/** Whether a field shows this fault by itself. */
export const isFieldFault = (fault: Fault): boolean => leaf.test(fault.path)

/** A fault as a sentence: what it is about, what is wrong, what would be right. */
export function faultSentence(label: string, { problem, remedy }: Fault): string {
  const asks = remedy.endsWith('?') ? '' : '.'
  return `${label} ${problem}; ${remedy}${asks}`
}
