import { type ClockChange, clockMoves } from '../core/plan/clock.ts'

/*
 * Moments and durations for people. A plan's start is the workshop's wall time, so the calendar is reckoned in UTC
 * fields that hold wall time; where the plan's clock is moved, moments after that are told as it then shows.
 */

const weekdays = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'] as const
const months = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const

const hour_ms = 3_600_000
const day_ms = 24 * hour_ms
const fortnight_h = 14 * 24
/** Moments are told to five minutes: no forecast is finer. */
const told_ms = 5 * 60_000

/** Milliseconds of a local date and time `YYYY-MM-DDTHH:MM`, as if the workshop's clock were UTC; NaN when it is none. */
export function wallMillis(local: string): number {
  return Date.parse(`${/T\d{2}:\d{2}$/.test(local) ? `${local}:00` : local}Z`)
}

/** Hours from the plan's start to a local date and time. */
export function hoursFrom(startsAt: string, local: string): number {
  return hoursAtWall(startsAt, wallMillis(local))
}

/** Hours from the plan's start until its clock shows a wall time, ms in the UTC fields of a date. */
export function hoursAtWall(startsAt: string, wall_ms: number): number {
  const shown_h = (wall_ms - wallMillis(startsAt)) / hour_ms
  return movesOf(startsAt).reduce(
    (at_h, move) => (at_h >= move.at_h + Math.max(0, move.by_h) ? at_h - move.by_h : at_h),
    shown_h,
  )
}

interface ClockMove {
  readonly at_h: number
  readonly by_h: number
}

/**
 * When the clock of the plan that is open is moved. It is set before anything is drawn, and whatever tells moments is
 * drawn anew with the forecast that follows.
 */
let followed: { readonly startsAt: string; readonly moves: readonly ClockMove[] } = { startsAt: '', moves: [] }

export function followClock(startsAt: string, changes: readonly ClockChange[]): void {
  const moves = clockMoves(startsAt, changes).map(({ at, by_min }) => ({ at_h: at / 3600, by_h: by_min / 60 }))
  followed = { startsAt, moves }
}

const movesOf = (startsAt: string): readonly ClockMove[] => (followed.startsAt === startsAt ? followed.moves : [])

/** The wall-clock moment `at_h` after the start, in the UTC fields of a date. */
export function wallMoment(startsAt: string, at_h: number): Date {
  const moved_h = movesOf(startsAt).reduce((sum, move) => (at_h >= move.at_h - 1e-9 ? sum + move.by_h : sum), 0)
  return new Date(wallMillis(startsAt) + (at_h + moved_h) * hour_ms)
}

const told = (startsAt: string, at_h: number): Date =>
  new Date(Math.round(wallMoment(startsAt, at_h).getTime() / told_ms) * told_ms)

const two = (value: number): string => String(value).padStart(2, '0')
/**
 * Hours of the clock by which moments are told: the person's choice, for every part of the window alike. It is set
 * before anything is drawn, and whatever tells moments is drawn anew when the settings change.
 */
let hoursOfClock: '24' | '12' = '24'

export function tellBy(hours: '24' | '12'): void {
  hoursOfClock = hours
}

/** Whether times have “am” and “pm” and so need more room. */
export const isTwelve = (): boolean => hoursOfClock === '12'

/** "13:40", by the other clock "1:40 pm". */
export function clockWords(hours: number, minutes: number): string {
  if (hoursOfClock === '24') return `${two(hours)}:${two(minutes)}`
  return `${hours % 12 === 0 ? 12 : hours % 12}:${two(minutes)} ${hours < 12 ? 'am' : 'pm'}`
}

const clock = (moment: Date): string => clockWords(moment.getUTCHours(), moment.getUTCMinutes())

export const weekdayName = (moment: Date): string => weekdays[moment.getUTCDay()] ?? ''
export const shortWeekday = (moment: Date): string => weekdayName(moment).slice(0, 3)
export const monthName = (moment: Date): string => months[moment.getUTCMonth()] ?? ''
export const shortMonth = (moment: Date): string => monthName(moment).slice(0, 3)

/** "13:40", to five minutes. */
export function clockTime(startsAt: string, at_h: number): string {
  return clock(told(startsAt, at_h))
}

/** "Thu 13:40"; beyond the plan's fortnight the weekday alone would mislead: "Thu 1 Apr 13:40". */
export function dayAndClock(startsAt: string, at_h: number): string {
  const moment = told(startsAt, at_h)
  const date = at_h < fortnight_h ? '' : ` ${moment.getUTCDate()} ${shortMonth(moment)}`
  return `${shortWeekday(moment)}${date} ${clock(moment)}`
}

/** "Sun 14 Mar, 14:00" */
export function dateAndClock(startsAt: string, at_h: number): string {
  const moment = told(startsAt, at_h)
  return `${shortWeekday(moment)} ${moment.getUTCDate()} ${shortMonth(moment)}, ${clock(moment)}`
}

/** For the ear: "Sunday 14 March 14:00, 46 hours". */
export function spokenMoment(startsAt: string, at_h: number): string {
  const moment = told(startsAt, at_h)
  const date = `${weekdayName(moment)} ${moment.getUTCDate()} ${monthName(moment)} ${clock(moment)}`
  return `${date}, ${hoursWord(at_h)}`
}

/** "46 hours": to a tenth below ten, then to the half hour. */
export function hoursWord(at_h: number): string {
  const hours = at_h < 10 ? Number(at_h.toFixed(1)) : Math.round(at_h * 2) / 2
  return `${hours} ${hours === 1 ? 'hour' : 'hours'}`
}

/** Early to late: the clock alone where both lie on the day of `likely_h`, else each with its day. */
export function earlyToLate(startsAt: string, likely_h: number, early_h: number, late_h: number): string {
  const day = (at_h: number): number => Math.floor(told(startsAt, at_h).getTime() / day_ms)
  const oneDay = day(early_h) === day(likely_h) && day(late_h) === day(likely_h)
  const word = oneDay ? clockTime : dayAndClock
  return `${word(startsAt, early_h)} to ${word(startsAt, late_h)}`
}

const halves = (hours: number): string => {
  const count = Math.round(hours * 2)
  return `${Math.floor(count / 2)}${count % 2 === 1 ? '½' : ''}`
}

/** The size of a duration: "40 min", "5 h 40 min", from ten hours on "19½ h". */
export function durationWords(hours: number): string {
  if (!Number.isFinite(hours)) return '–'
  const size = Math.abs(hours)
  const minutes = Math.round(size * 12) * 5
  if (minutes >= 600) return `${halves(size)} h`
  if (minutes === 0 && size > 0) return 'under 5 min'
  if (minutes < 60) return `${minutes} min`
  const rest = minutes % 60
  return rest === 0 ? `${minutes / 60} h` : `${Math.floor(minutes / 60)} h ${rest} min`
}

/** "31½ to 34½ h", "40 min to 1 h 10 min"; one duration where both read the same. */
export function durationRange(from_h: number, to_h: number): string {
  const [from, to] = [durationWords(from_h), durationWords(to_h)]
  if (from === to) return from
  const bothWhole = /^\d+½? h$/.test(from) && /^\d+½? h$/.test(to)
  return bothWhole ? `${from.slice(0, -2)} to ${to}` : `${from} to ${to}`
}
