import { PlanError } from '../errors.ts'
import { changesOfZone, localSeconds } from './clock.ts'
import type { Plan } from './schema/plan.ts'

/** Days after the start within which a clock's changes are looked up. */
const DAYS = 62

/** What a zone's clock shows at a moment (s since 1970), as `2027-03-12 16:00:00`; throws a RangeError for no zone. */
export type ZoneClock = (zone: string) => (moment: number) => string

/**
 * A plan that names a zone with the changes of its clock written out, so that what follows rests on the plan alone. To
 * be called where a plan comes in: tables of zones are the machine's and may differ for years to come.
 * Throws: `PlanError` for a zone that the machine doesn't know.
 */
export function withZone(plan: Plan, clockOf: ZoneClock): Plan {
  const { zone, clock_changes } = plan
  if (zone === undefined || clock_changes !== undefined) return plan
  try {
    const shown = clockOf(zone)
    const offset_min = (moment: number): number =>
      Math.round(((localSeconds(shown(moment).replace(' ', 'T')) ?? moment) - moment) / 60)
    return { ...plan, clock_changes: changesOfZone(plan.startsAt, DAYS, offset_min) }
  } catch (error) {
    if (!(error instanceof RangeError)) throw error
    const problem = `"${zone}" is no time zone that this machine knows`
    throw new PlanError([{ path: 'zone', problem, remedy: 'give one such as "Europe/Vienna"' }])
  }
}
