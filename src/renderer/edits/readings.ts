import type { Place } from '../../core/geometry/body.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { writeAt } from './path.ts'
import { addProbe } from './probes.ts'

export type PlanReading = NonNullable<Plan['readings']>[number]

/** Hours are kept to a second, so that a moment typed by the clock comes back as it was typed. */
const SECONDS = 3600

/** One more reading, in the order of time; one of the same probe at the same moment takes its place. */
export function addReading(plan: Plan, reading: PlanReading): Plan {
  const at_h = Math.round(reading.at_h * SECONDS) / SECONDS
  const others = (plan.readings ?? []).filter((one) => one.probe !== reading.probe || one.at_h !== at_h)
  return { ...plan, readings: [...others, { ...reading, at_h }].toSorted((a, b) => a.at_h - b.at_h) }
}

export function removeReading(plan: Plan, index: number): Plan {
  const left = (plan.readings ?? []).toSpliced(index, 1)
  return writeAt(plan, 'readings', left.length > 0 ? left : undefined)
}

/** A probe where the slowest place was found, for a plan that has none. */
export const addProbeAt = (plan: Plan, { x, y }: Place): Plan => addProbe(plan, { x, y })
