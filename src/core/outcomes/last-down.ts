import type { Course } from '../journey/course.ts'
import type { History } from './cooling-rule.ts'
import { along } from './crossing.ts'
import { controlledPlaces } from './meeting.ts'

/**
 * From when on a history stays at or below a temperature, s; infinite where it ends above, minus infinite where it
 * never was above.
 */
export function downAt({ t, T_C }: History, to_C: number): number {
  let i = T_C.length - 1
  if (T_C[i]! > to_C) return Number.POSITIVE_INFINITY
  while (i >= 0 && T_C[i]! <= to_C) i--
  return i < 0 ? Number.NEGATIVE_INFINITY : along(t[i]!, t[i + 1]!, T_C[i]!, T_C[i + 1]!, to_C)
}

/** Which places count: those that need control, or all. */
export type Counting = 'controlled' | 'all'

const known = new WeakMap<Course, Map<string, number | undefined>>()

/**
 * The last place to come down to a temperature: of those that end above it the warmest, else the one that passes it
 * last. Found among all places, wherever it lies; nothing where no place ever was above.
 * @returns its index
 */
export function lastDown(course: Course, to_C: number, counting: Counting): number | undefined {
  const kept = known.get(course) ?? new Map<string, number | undefined>()
  known.set(course, kept)
  const key = `${counting} ${to_C}`
  if (!kept.has(key)) kept.set(key, findLast(course, to_C, counting === 'all' ? undefined : controlledPlaces(course)))
  return kept.get(key)
}

/** @param counts  Shape: as course.places(); all if left out */
function findLast(course: Course, to_C: number, counts: readonly boolean[] | undefined): number | undefined {
  let last: number | undefined
  let latest = Number.NEGATIVE_INFINITY
  let warmest_C = to_C
  for (const [index, place] of course.places().entries()) {
    if (counts?.[index] === false) continue
    const last_C = place.T_C[place.T_C.length - 1]!
    if (last_C > warmest_C) {
      last = index
      latest = Number.POSITIVE_INFINITY
      warmest_C = last_C
    }
    if (latest === Number.POSITIVE_INFINITY) continue
    const down = downAt(place, to_C)
    if (down <= latest) continue
    last = index
    latest = down
  }
  return last
}
