import { readPlan as readText } from '../../core/plan/read.ts'
import type { Plan } from '../../core/plan/schema.ts'
import { withZone, type ZoneClock } from '../../core/plan/zone.ts'

/** The clock of a zone by the machine's tables; Swedish dates are written as ISO 8601 has them. */
const zoneClock: ZoneClock = (zone) => {
  const format = new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short', timeStyle: 'medium' })
  return (moment) => format.format(moment * 1000)
}

/** A plan from its text, with the changes of its clock where it names a zone. Throws a `PlanError`. */
export const readPlan = (text: string): Plan => withZone(readText(text), zoneClock)
