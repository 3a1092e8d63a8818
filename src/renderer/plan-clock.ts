import { PlanError } from '../core/errors.ts'
import type { ClockChange } from '../core/plan/clock.ts'
import type { Plan } from '../core/plan/schema/plan.ts'
import { withZone } from '../core/plan/zone.ts'
import { followClock } from './format-time.ts'
import { usePlan } from './plan-store.ts'
import { zoneClock } from './zone-clock.ts'

/** When a plan's clock is moved: as it says itself, else by its zone; never where the zone is not known. */
export function clockChangesOf(plan: Plan): readonly ClockChange[] {
  try {
    return withZone(plan, zoneClock).clock_changes ?? []
  } catch (error) {
    if (error instanceof PlanError) return []
    throw error
  }
}

const sameClock = (one: Plan, other: Plan): boolean =>
  one.startsAt === other.startsAt && one.zone === other.zone && one.clock_changes === other.clock_changes

/** Keeps the clock by which moments are told with the plan that is open. */
export function startPlanClock(): void {
  let last: Plan | undefined
  usePlan.subscribe(({ history }) => {
    const plan = history?.present
    if (plan === undefined || (last !== undefined && sameClock(plan, last))) return
    last = plan
    followClock(plan.startsAt, clockChangesOf(plan))
  })
}
