import { hoursAtWall, isTwelve, shortMonth, shortWeekday, wallMoment } from '../format-time.ts'

/* The time axis twice: the workshop's days and nights, and hours since the start. All in hours since the start. */

export interface Day {
  readonly from_h: number
  readonly to_h: number
  /** "Sun 14 Mar", "Sun 14", "Sun", longest first. */
  readonly names: readonly string[]
}

export interface Night {
  readonly from_h: number
  readonly to_h: number
}

const hour_ms = 3_600_000
const day_h = 24
/** When a workshop is dark: common practice, no source. */
const dusk = 22
const dawn = 6

const day_ms = day_h * hour_ms

/** The last midnight at or before a moment, ms of wall time. */
const midnightBefore = (startsAt: string, at_h: number): number =>
  Math.floor((wallMoment(startsAt, at_h).getTime() + 1) / day_ms) * day_ms

/** Midnights within a stretch, its ends left out. */
export function midnights(startsAt: string, from_h: number, to_h: number): readonly number[] {
  const found: number[] = []
  for (let wall = midnightBefore(startsAt, from_h) + day_ms; ; wall += day_ms) {
    const at_h = hoursAtWall(startsAt, wall)
    if (at_h >= to_h - 1e-9) return found
    if (at_h > from_h + 1e-9) found.push(at_h)
  }
}

export function days(startsAt: string, from_h: number, to_h: number): readonly Day[] {
  const edges = [from_h, ...midnights(startsAt, from_h, to_h), to_h]
  return edges.slice(1).map((end_h, index) => {
    const start_h = edges[index]!
    // A second past the edge: the day that begins there.
    const moment = wallMoment(startsAt, start_h + 1 / 3600)
    const day = `${shortWeekday(moment)} ${moment.getUTCDate()}`
    return { from_h: start_h, to_h: end_h, names: [`${day} ${shortMonth(moment)}`, day, shortWeekday(moment)] }
  })
}

export function nights(startsAt: string, from_h: number, to_h: number): readonly Night[] {
  const found: Night[] = []
  const end = wallMoment(startsAt, to_h).getTime() + day_ms
  for (let midnight = midnightBefore(startsAt, from_h); midnight < end; midnight += day_ms) {
    const [evening, morning] = [midnight + (dusk - day_h) * hour_ms, midnight + dawn * hour_ms]
    const night = {
      from_h: Math.max(from_h, hoursAtWall(startsAt, evening)),
      to_h: Math.min(to_h, hoursAtWall(startsAt, morning)),
    }
    if (night.to_h > night.from_h) found.push(night)
  }
  return found
}

const hourSteps = [0.25, 0.5, 1, 2, 3, 4, 6, 12, 24, 48, 72, 96, 168, 336]

/** The finest round step of hours whose ticks stay `apart` pixels from each other. */
export function hourStep(from_h: number, to_h: number, width: number, apart: number): number {
  const pixelsPerHour = width / (to_h - from_h)
  return hourSteps.find((step) => step * pixelsPerHour >= apart) ?? hourSteps.at(-1)!
}

export function hourTicks(from_h: number, to_h: number, step: number): readonly number[] {
  const found: number[] = []
  for (let index = Math.ceil(from_h / step - 1e-9); index * step <= to_h + 1e-9; index++) found.push(index * step + 0)
  return found
}

/** Marks on the clock axis: midnights, or clock hours where the course is shorter than two days. */
export function clockMarks(startsAt: string, from_h: number, to_h: number, width: number): readonly number[] {
  const dark = midnights(startsAt, from_h, to_h)
  if (to_h - from_h > 2 * day_h) return dark
  const step = Math.min(day_h, Math.max(1, hourStep(from_h, to_h, width, isTwelve() ? 76 : 56)))
  const first = midnightBefore(startsAt, from_h)
  const [from, to] = [from_h, to_h].map((at_h) => (wallMoment(startsAt, at_h).getTime() - first) / hour_ms) as [
    number,
    number,
  ]
  return hourTicks(from, to, step).map((tick) => hoursAtWall(startsAt, first + tick * hour_ms))
}
