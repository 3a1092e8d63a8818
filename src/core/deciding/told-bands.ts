import type { Course } from '../journey/course.ts'
import type { Message } from '../messages.ts'
import { bandValues, type TimeBand } from '../words/banded.ts'
import { computedTimes } from '../words/computed-times.ts'
import { spanOf, type Variants } from './band.ts'

/* Every computed time that is told has its band: how the same time comes out in the variants of the course. */

/** A minute: what moves by less is told without a band. */
const TOLD_H = 1 / 60

/** The band of a time; none where nothing uncertain moves it. */
export function bandOf(variants: Variants, likely_h: number, read: (course: Course) => number | undefined): TimeBand {
  const span = spanOf(variants, read)
  if (span === undefined) return {}
  if (!span.missing && Math.max(span.below, span.above) < TOLD_H) return {}
  const early_h = Math.max(0, likely_h - span.below)
  // A variant that never gets there leaves the late end open.
  return span.missing ? { early_h } : { early_h, late_h: likely_h + span.above }
}

/** A message with the band of one of its times. */
export const withBand = (told: Message, key: string, band: TimeBand): Message => ({
  ...told,
  values: { ...told.values, ...bandValues(key, band) },
})

/** A message with the band of each of its computed times. */
export function withBands(told: Message, find: (key: string, likely_h: number) => TimeBand | undefined): Message {
  return (computedTimes[told.code] ?? []).reduce((made, key) => {
    const likely_h = told.values[key]
    const band = typeof likely_h === 'number' ? find(key, likely_h) : undefined
    return band === undefined ? made : withBand(made, key, band)
  }, told)
}

/** The number of a message like another one: of the same code and about the same things. */
function numberLike(found: readonly Message[], like: Message, key: string): number | undefined {
  const same = found.find(
    ({ code, values }) =>
      code === like.code &&
      Object.entries(like.values).every(([name, value]) => typeof value !== 'string' || values[name] === value),
  )
  const value = same?.values[key]
  return typeof value === 'number' && Number.isFinite(value) ? value : undefined
}

/**
 * Messages with their bands, by what the same finder says of the variants.
 * @param none_h  what a time is where a variant has no such message; not known where left out
 */
export function messagesWithBands(
  told: readonly Message[],
  variants: Variants,
  find: (course: Course) => readonly Message[],
  none_h?: number,
): Message[] {
  const known = new Map<Course, readonly Message[]>()
  const of = (course: Course): readonly Message[] => {
    const found = known.get(course) ?? find(course)
    known.set(course, found)
    return found
  }
  return told.map((one) =>
    withBands(one, (key, likely_h) =>
      bandOf(variants, likely_h, (course) => numberLike(of(course), one, key) ?? none_h),
    ),
  )
}
