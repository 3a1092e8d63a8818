/*
 * The workshop's clock. A plan holds local time without a zone ('2027-03-12T16:00'); moments are milliseconds in which
 * every day has 24 hours, so that hours since the start and the wall clock never drift apart within a plan.
 */

const weekdays = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'] as const
const longWeekdays = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'] as const
const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const

const hour_ms = 3_600_000
const day_ms = 24 * hour_ms

/** Milliseconds of a local time as written in a plan; NaN when it is none. */
export function localMoment(local: string): number {
  const parts = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})(?::(\d{2}))?$/.exec(local)
  if (!parts) return Number.NaN
  const [year, month, day, hour, minute, second] = parts.slice(1).map((part) => Number(part ?? 0))
  return Date.UTC(year!, month! - 1, day!, hour!, minute!, second || 0)
}

/** The local time as a plan writes it, to the minute. */
export function writeLocal(moment: number): string {
  return new Date(moment).toISOString().slice(0, 16)
}

/** The moment some hours after a plan's start. */
export function momentAt(startsAt: string, at_h: number): number {
  return localMoment(startsAt) + at_h * hour_ms
}

/** Hours from a plan's start to a local time. */
export function hoursUntil(startsAt: string, local: string): number {
  return (localMoment(local) - localMoment(startsAt)) / hour_ms
}

/** Hours since the start of every midnight in the plan. */
export function midnights(startsAt: string, length_h: number): number[] {
  const start = localMoment(startsAt)
  const first = Math.ceil(start / day_ms) * day_ms
  const found: number[] = []
  for (let moment = first; moment <= start + length_h * hour_ms; moment += day_ms) found.push((moment - start) / hour_ms)
  return found
}

/** "16:00" */
export const clockWords = (moment: number): string => new Date(moment).toISOString().slice(11, 16)

/** "Fri" */
export const weekdayWord = (moment: number): string => weekdays[new Date(moment).getUTCDay()]!

/** "Fri 12 Mar" */
export function dayWords(moment: number): string {
  const date = new Date(moment)
  return `${weekdayWord(moment)} ${date.getUTCDate()} ${months[date.getUTCMonth()]!}`
}

/** "Fri 16:00" */
export const momentWords = (moment: number): string => `${weekdayWord(moment)} ${clockWords(moment)}`

/** "Fri 12 Mar 2027, 16:00" */
export const fullWords = (moment: number): string =>
  `${dayWords(moment)} ${new Date(moment).getUTCFullYear()}, ${clockWords(moment)}`

/** "Sunday 14 March 14:00", for those who listen. */
export function spokenWords(moment: number): string {
  const date = new Date(moment)
  const month = date.toLocaleString('en-GB', { month: 'long', timeZone: 'UTC' })
  return `${longWeekdays[date.getUTCDay()]!} ${date.getUTCDate()} ${month} ${clockWords(moment)}`
}

/** To the next multiple of some minutes: what is forecast is not known to the minute. */
export const roundMoment = (moment: number, minutes = 5): number =>
  Math.round(moment / (minutes * 60_000)) * minutes * 60_000
