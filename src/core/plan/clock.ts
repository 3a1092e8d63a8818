import { DAY } from '../units.ts'

/*
 * The workshop's wall clock, as plain arithmetic on calendar fields: every day has 24 hours. Nothing here knows a time
 * zone; where the clock changes during a plan, the window says so.
 */

const pattern = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})(?::(\d{2}))?$/
const timeOfDayPattern = /^(\d{2}):(\d{2})$/

/** Seconds of a local date and time on the scale of all local times; null for one that no calendar has. */
export function localSeconds(local: string): number | null {
  const fields = pattern.exec(local)
  if (fields === null) return null
  const [year, month, day, hour, minute, second] = fields.slice(1).map((field) => Number(field ?? 0))
  const milliseconds = Date.UTC(year!, month! - 1, day, hour, minute, second)
  // Fields beyond their range roll over (30 February becomes 2 March): then the date isn't the one written.
  return new Date(milliseconds).toISOString().startsWith(local) ? milliseconds / 1000 : null
}

/** Seconds after midnight of a time of day; null for one that no clock has. */
export function secondsOfDay(timeOfDay: string): number | null {
  const fields = timeOfDayPattern.exec(timeOfDay)
  if (fields === null) return null
  const [hour, minute] = [Number(fields[1]), Number(fields[2])]
  return hour < 24 && minute < 60 ? hour * 3600 + minute * 60 : null
}

/** Seconds from the plan's start to a local date and time; negative before it, null for one that no calendar has. */
export function sinceStart(startsAt: string, local: string): number | null {
  const start = localSeconds(startsAt)
  const moment = localSeconds(local)
  return start === null || moment === null ? null : moment - start
}

/** A moment of the plan, and after how many seconds it comes again; no `every` for one that comes once. */
export interface ClockMoment {
  /** Seconds since the plan's start; of a time of day the first one after the start. */
  readonly first: number
  readonly every?: number
}

/** What a stage's `clock` means: a date and time once, a time of day every day; null for one that no clock has. */
export function clockMoment(startsAt: string, clock: string): ClockMoment | null {
  const timeOfDay = secondsOfDay(clock)
  if (timeOfDay === null) {
    const first = sinceStart(startsAt, clock)
    return first === null ? null : { first }
  }
  const midnight = sinceStart(startsAt, `${startsAt.slice(0, 10)}T00:00`)
  return midnight === null ? null : { first: nextAfter({ first: midnight + timeOfDay, every: DAY }, 0)!, every: DAY }
}

/** The first such moment later than `time` (s since the plan's start); null when it came before and comes no more. */
export function nextAfter({ first, every }: ClockMoment, time: number): number | null {
  if (first > time) return first
  if (every === undefined) return null
  return first + (Math.floor((time - first) / every) + 1) * every
}
