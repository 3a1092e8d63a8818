import { DAY } from '../units.ts'

/*
 * The workshop's wall clock, as plain arithmetic on calendar fields. Nothing here knows a time zone: a plan says itself
 * when its clock is moved, or the machine tells it by the zone that the plan names. Hours are counted as they pass.
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

/** When a plan's clock is moved: what it shows just before, and by how many minutes it goes forward. */
export interface ClockChange {
  readonly at: string
  readonly by_min: number
}

/** The same in seconds, counted on the plan's clock as if from its start on it had never been moved before. */
interface Moved {
  readonly at: number
  readonly by: number
}

/** Changes after the start, in order; those that no calendar has count as none. */
function movesOf(start: number, changes: readonly ClockChange[]): Moved[] {
  return changes
    .flatMap(({ at, by_min }) => {
      const shown = localSeconds(at)
      return shown === null || shown <= start ? [] : [{ at: shown - start, by: 60 * by_min }]
    })
    .sort((a, b) => a.at - b.at)
}

/** Seconds that have passed when the clock shows so much more than at the start; of an hour shown twice the first. */
const passed = (shown: number, moves: readonly Moved[]): number =>
  moves.reduce((sum, { at, by }) => (shown >= at ? sum - by : sum), shown)

/** Seconds from the plan's start to a local date and time; negative before it, null for one that no calendar has. */
export function sinceStart(startsAt: string, local: string, changes: readonly ClockChange[] = []): number | null {
  const start = localSeconds(startsAt)
  const moment = localSeconds(local)
  return start === null || moment === null ? null : passed(moment - start, movesOf(start, changes))
}

/** The changes of a plan's clock, as seconds since its start and by how many minutes. */
export function clockMoves(
  startsAt: string,
  changes: readonly ClockChange[],
): { readonly at: number; readonly by_min: number }[] {
  const start = localSeconds(startsAt)
  if (start === null) return []
  const moves = movesOf(start, changes)
  // A change itself is told by what the clock shows just before it.
  return moves.map(({ at, by }, index) => ({ at: passed(at, moves.slice(0, index)), by_min: by / 60 }))
}

/** What the plan's clock shows at a moment (s since the start), on the scale of local times; null for no start. */
export function shownAt(startsAt: string, at: number, changes: readonly ClockChange[] = []): number | null {
  const start = localSeconds(startsAt)
  if (start === null) return null
  return clockMoves(startsAt, changes).reduce(
    (shown, move) => (at >= move.at ? shown + 60 * move.by_min : shown),
    start + at,
  )
}

/** A moment of the plan, and after how many seconds it comes again; no `every` for one that comes once. */
export interface ClockMoment {
  /** Seconds since the plan's start; of a time of day the first one after the start. */
  readonly first: number
  readonly every?: number
  /** Where the clock is moved meanwhile: every moment of the days to come, in place of `every`. */
  readonly all?: readonly number[]
}

/** Days for which moments are told one by one where the clock is moved. */
const DAYS = 400

/** What a stage's `clock` means: a date and time once, a time of day every day; null for one that no clock has. */
export function clockMoment(startsAt: string, clock: string, changes: readonly ClockChange[] = []): ClockMoment | null {
  const timeOfDay = secondsOfDay(clock)
  if (timeOfDay === null) {
    const first = sinceStart(startsAt, clock, changes)
    return first === null ? null : { first }
  }
  const start = localSeconds(startsAt)
  const midnight = sinceStart(startsAt, `${startsAt.slice(0, 10)}T00:00`)
  if (start === null || midnight === null) return null
  const moves = movesOf(start, changes)
  const shown = nextAfter({ first: midnight + timeOfDay, every: DAY }, 0)!
  if (moves.length === 0) return { first: shown, every: DAY }
  const all = Array.from({ length: DAYS }, (_, day) => passed(shown + day * DAY, moves))
  return { first: all[0]!, every: DAY, all }
}

/** The first such moment later than `time` (s since the plan's start); null when it came before and comes no more. */
export function nextAfter({ first, every, all }: ClockMoment, time: number): number | null {
  if (all !== undefined) return all.find((moment) => moment > time) ?? null
  if (first > time) return first
  if (every === undefined) return null
  return first + (Math.floor((time - first) / every) + 1) * every
}

/** Seconds between looks at a zone's clock: half an hour is the shortest step between changes that any zone knows. */
const LOOK = 1800

/**
 * The changes of a zone's clock in the days after a local date and time.
 * @param offset_min  minutes by which the zone's clock is before UTC at a moment, s since 1970
 */
export function changesOfZone(startsAt: string, days: number, offset_min: (moment: number) => number): ClockChange[] {
  const local = localSeconds(startsAt)
  if (local === null) return []
  const start = local - 60 * offset_min(local - 60 * offset_min(local))
  const found: ClockChange[] = []
  let before = offset_min(start)
  for (let moment = Math.ceil(start / LOOK) * LOOK; moment <= start + days * DAY; moment += LOOK) {
    const now = offset_min(moment)
    if (now !== before)
      found.push({
        at: new Date((moment + 60 * before) * 1000).toISOString().slice(0, 16),
        by_min: now - before,
      })
    before = now
  }
  return found
}
