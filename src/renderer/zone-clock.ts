import type { ZoneClock } from '../core/plan/zone.ts'

/** The clock of a zone by the machine's tables; Swedish dates are written as ISO 8601 has them. */
export const zoneClock: ZoneClock = (zone) => {
  const format = new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short', timeStyle: 'medium' })
  return (moment) => format.format(moment * 1000)
}
