import { hoursFrom, wallMoment } from '../format-time.ts'
import { localTime } from '../new-plan.ts'

/** Local date and time of a moment of the plan, as a field of that kind takes it. */
export const localMoment = (startsAt: string, at_h: number): string =>
  wallMoment(startsAt, at_h).toISOString().slice(0, 16)

/** Whether the workshop's clock stands within the plan now, as far as its course is known. */
export function nowWithin(startsAt: string, to_h: number, now: Date): string | null {
  const local = localTime(now)
  const at_h = hoursFrom(startsAt, local)
  return at_h >= 0 && at_h <= to_h ? local : null
}
