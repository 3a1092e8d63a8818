import { z } from '../../zod.ts'

/* What values of a plan file may be, whatever they are of. */

const idPattern = /^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/
const localTimePattern = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?$/
export const zonePattern = /^[A-Za-z][A-Za-z0-9_+-]*(\/[A-Za-z0-9_+-]+)*$/
export const clockPattern = /^(\d{4}-\d{2}-\d{2}T)?\d{2}:\d{2}$/

/** What each pattern of the format asks for, in words, by the pattern's source. */
export const patternWords: Readonly<Record<string, string>> = {
  [idPattern.source]:
    'a name of letters, digits, dots, dashes and underscores, beginning with a letter or digit, 64 at most',
  [localTimePattern.source]: 'a local date and time such as "2027-03-12T16:00"',
  [zonePattern.source]: 'the name of a time zone such as "Europe/Vienna"',
  [clockPattern.source]: 'a time of day such as "07:00", or a date and time such as "2027-03-13T07:00"',
}

export const finite = z.number()
/** Lowest and highest temperature of anything in a plan, °C. */
export const PLAN_RANGE_C = [-60, 350] as const
/** Lowest and highest reading, °C. */
export const READING_RANGE_C = [-100, 500] as const
/** Latest moment after the start, h. */
export const LATEST_H = 24 * 366
export const MOST_READINGS = 100_000
export const temperature = finite.min(PLAN_RANGE_C[0]).max(PLAN_RANGE_C[1])
export const share = finite.min(0).max(1)
export const percent = finite.min(0).max(100)
export const count = finite.min(1).max(200).multipleOf(1)
export const name = z.string().min(1).max(120)
export const id = z.string().regex(idPattern)
export const localTime = z.string().regex(localTimePattern)
export const faceNames = z
  .array(name)
  .min(1)
  .max(12)
  .meta({ description: 'Faces of the piece by name; a group such as "sides" or "all" stands for its faces.' })
