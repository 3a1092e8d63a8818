import { PlanError } from '../../core/errors.ts'
import { openPlan } from '../../core/plan/read.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { withZone, type ZoneClock } from '../../core/plan/zone.ts'
import { say } from '../../core/words/sentences.ts'
import { metric } from '../../core/words/show.ts'

/** The clock of a zone by the machine's tables; Swedish dates are written as ISO 8601 has them. */
const zoneClock: ZoneClock = (zone) => {
  const format = new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short', timeStyle: 'medium' })
  return (moment) => format.format(moment * 1000)
}

/** A plan as its text says; what there is to tell of its reading goes to standard error. Throws a `PlanError`. */
export function readAsWritten(text: string): Plan {
  const { plan, faults, notes } = openPlan(text)
  if (plan === undefined || faults.length > 0) throw new PlanError(faults)
  process.stderr.write(notes.map((note) => `${say(note, metric)}\n`).join(''))
  return plan
}

/** A plan with the changes of its clock where it names a zone. Throws a `PlanError`. */
export const zoned = (plan: Plan): Plan => withZone(plan, zoneClock)

/** A plan from its text, ready to be computed. Throws a `PlanError`. */
export const readPlan = (text: string): Plan => zoned(readAsWritten(text))
