import type { Place } from '../../geometry/body.ts'
import type { Course, PlaceHistory } from '../../journey/course.ts'
import { message } from '../../messages.ts'
import { toHours } from '../../units.ts'
import { answerOf, type Finding, isStill, trendAtEnd } from '../answer.ts'
import type { History } from '../cooling-rule.ts'
import { firstAbove, SAME_K } from '../crossing.ts'
import { fineFollow, finePlaces } from '../fine-history.ts'
import type { Judge, TargetOf } from '../target.ts'

type BakedTarget = TargetOf<'baked'>

/** A place with the moment at which it was baked, if it was, and how hot it ever got. */
interface Baked {
  readonly place: PlaceHistory
  readonly at: number | undefined
  readonly highest_C: number
}

/** A place with its history as straight lines. */
interface PlaceToBake {
  readonly place: PlaceHistory
  readonly fine: History
}

const highestOf = ({ T_C }: PlaceHistory): number => T_C.reduce((highest, T) => Math.max(highest, T), -Infinity)

/** The place that was last to get there; of those that never did, the one that stayed coolest. */
function findLast(places: readonly PlaceToBake[], core_C: number): Baked | undefined {
  let last: Baked | undefined
  for (const { place, fine } of places) {
    const at = firstAbove(fine.t, fine.T_C, core_C - 2 * SAME_K)
    if (last === undefined) {
      last = { place, at, highest_C: highestOf(place) }
      continue
    }
    if (at === undefined) {
      const highest_C = highestOf(place)
      if (last.at !== undefined || highest_C < last.highest_C) last = { place, at, highest_C }
    } else if (last.at !== undefined && at > last.at) last = { place, at, highest_C: highestOf(place) }
  }
  return last
}

/** When one place of a course was baked, h since the start; undefined when it never was. */
export function bakedMoment({ core_C }: BakedTarget, course: Course, where: Place): number | undefined {
  const { t, T_C } = fineFollow(course, where)
  const at = firstAbove(t, T_C, core_C - 2 * SAME_K)
  return at === undefined ? undefined : toHours(at)
}

/**
 * Places that the target is about: those there when heat first reached the asked temperature anywhere. What is poured
 * on a baked base later isn't baked.
 */
function placesToBake(course: Course, core_C: number): PlaceToBake[] {
  const from = firstAbove(course.t, course.hottest_C, core_C - 2 * SAME_K) ?? course.t[0]!
  const fine = finePlaces(course)
  return course.places().flatMap((place, i) => (place.t[0]! <= from ? [{ place, fine: fine[i]! }] : []))
}

/** Baked: every place reached the asked temperature, each at its own time; the last one stayed within its window. */
export const judgeBaked: Judge<'baked'> = (target, course) => {
  const last = findLast(placesToBake(course, target.core_C), target.core_C)
  if (last === undefined) throw new Error('a course without places')
  const { where, layer } = last.place
  return answerOf(target, { where, layer, ...found(target, course, last) })
}

function found(target: BakedTarget, course: Course, last: Baked): Pick<Finding, 'at' | 'why' | 'otherwise'> {
  const { core_C, most_C } = target
  const { at, highest_C } = last
  const { where } = last.place
  if (at !== undefined && most_C !== undefined && highest_C > most_C + SAME_K)
    return {
      at,
      otherwise: 'no',
      why: message('baked-beyond', { core_C, most_C, highest_C, at_h: toHours(at) }, where),
    }
  if (at !== undefined)
    return { at, otherwise: 'not yet', why: message('baked-through', { core_C, highest_C, at_h: toHours(at) }, where) }
  return notYet(target, course, last)
}

function notYet(
  { core_C }: BakedTarget,
  course: Course,
  { place, highest_C }: Baked,
): Pick<Finding, 'why' | 'otherwise'> {
  const end = course.t.length - 1
  const air_C = course.air_C[end]!
  const last_C = place.T_C[place.T_C.length - 1]!
  const { where } = place
  if (highest_C > last_C + 0.05) return { otherwise: 'no', why: message('not-baked', { core_C, highest_C }, where) }
  if (air_C <= core_C + SAME_K && course.hottest_C[end]! <= core_C + SAME_K)
    return { otherwise: 'no', why: message('air-too-cool', { core_C, air_C, last_C }, where) }
  const history = course.follow(where)
  if (isStill(course, history)) return { otherwise: 'no', why: message('settled-below', { core_C, last_C }, where) }
  return {
    otherwise: 'not yet',
    why: message('still-below', { core_C, last_C, rate_K_h: trendAtEnd(course, history) }, where),
  }
}
