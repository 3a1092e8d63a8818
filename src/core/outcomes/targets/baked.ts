import type { Answer } from '../../forecast-types.ts'
import type { Place } from '../../geometry/body.ts'
import type { Course, PlaceHistory } from '../../journey/course.ts'
import { type Message, message } from '../../messages.ts'
import { HOUR, toHours } from '../../units.ts'
import { answerOf, type Finding, isStill, trendAtEnd } from '../answer.ts'
import type { History } from '../cooling-rule.ts'
import { firstAbove, SAME_K } from '../crossing.ts'
import { fineFollow, finePlaces } from '../fine-history.ts'
import { placeRanges } from '../place-ranges.ts'
import type { Judge, TargetOf } from '../target.ts'
import { answerWhole, type Question } from '../whole-piece.ts'

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
  readonly highest_C: number
}

/** Straight lines and samples of one history lie no further apart than this, K. */
const NEAR_K = 0.1

/** The place that was last to get there; of those that never did, the one that stayed coolest. */
function findLast(places: readonly PlaceToBake[], core_C: number): Baked | undefined {
  let last: Baked | undefined
  for (const { place, fine, highest_C } of places) {
    const reaches = highest_C > core_C - NEAR_K
    const at = reaches ? firstAbove(fine.t, fine.T_C, core_C - 2 * SAME_K) : undefined
    const isLater =
      last === undefined ||
      (at === undefined ? last.at !== undefined || highest_C < last.highest_C : last.at !== undefined && at > last.at)
    if (isLater) last = { place, at, highest_C }
  }
  return last
}

/** When the place that decides is baked in other courses, h since the start; undefined when it never is. */
export function bakedMoment(target: BakedTarget, course: Course): (course: Course) => number | undefined {
  const { where } = judgeBaked(target, course)
  return (one) => {
    const { t, T_C } = fineFollow(one, where)
    const at = firstAbove(t, T_C, target.core_C - 2 * SAME_K)
    return at === undefined ? undefined : toHours(at)
  }
}

/**
 * Places that the target is about: those there when heat first reached the asked temperature anywhere. What is poured
 * on a baked base later isn't baked.
 */
function placesToBake(course: Course, core_C: number): PlaceToBake[] {
  const from = firstAbove(course.t, course.hottest_C, core_C - 2 * SAME_K) ?? course.t[0]!
  const fine = finePlaces(course)
  const { hottest_C } = placeRanges(course)
  return course
    .places()
    .flatMap((place, i) => (place.t[0]! <= from ? [{ place, fine: fine[i]!, highest_C: hottest_C[i]! }] : []))
}

/** Baked: every place reached the asked temperature, each at its own time; the last one stayed within its window. */
export const judgeBaked: Judge<'baked'> = (target, course) => {
  const last = findLast(placesToBake(course, target.core_C), target.core_C)
  if (last === undefined) throw new Error('a course without places')
  const { where, layer } = last.place
  const byWindow = answerOf(target, { where, layer, ...found(target, course, last) })
  const laws = lawAnswers(target, course)
  const notes = [...byLaws(laws, byWindow.at_h), ...carriedOver(course, where)]
  return asBoth(target, { ...byWindow, ...(notes.length === 0 ? {} : { notes }) }, laws)
}

/** Laws of masses that heat sets. */
const BAKES: ReadonlySet<string> = new Set(['batter-starch', 'dough-starch', 'egg', 'whey', 'yolk'])

/** The questions that laws answer: of every material in the oven that heat sets, whether each place of it is set. */
function questionsOf(target: BakedTarget, course: Course): readonly Question[] {
  const there = new Set(placesToBake(course, target.core_C).map(({ place }) => place.layer))
  const layers = course.segments[course.segments.length - 1]?.mesh.layers ?? []
  const baking = layers.filter(
    ({ name, material }) => there.has(name) && material.sets?.some(({ by }) => BAKES.has(by)) === true,
  )
  return [...new Set(baking.map(({ material }) => material.id))].map((material) => ({
    mark: 'set',
    what: 'baked by its starch and egg',
    material,
  }))
}

/** When starch and egg of every layer that heat sets have set, as answers of their own. */
const lawAnswers = (target: BakedTarget, course: Course): Answer[] =>
  questionsOf(target, course).map((question) => answerWhole(target, course, question))

/** What the laws say beside the window of the core, and whether the two disagree. */
function byLaws(laws: readonly Answer[], window_h: number | undefined): Message[] {
  return laws.flatMap((answer) => {
    const told = [answer.why, ...(answer.notes ?? [])]
    const late = answer.at_h === undefined || (window_h !== undefined && answer.at_h > window_h + DIFFER_H)
    if (window_h !== undefined && late) return [message('baked-laws-later', {}, answer.where), ...told]
    if (window_h === undefined && answer.at_h !== undefined)
      return [message('baked-laws-earlier', {}, answer.where), ...told]
    return told
  })
}

/** Hours between the two before they count as disagreeing. */
const DIFFER_H = 0.1

/** Baked is both: the core through its window, and starch and egg set at every place. */
function asBoth(target: BakedTarget, byWindow: Answer, laws: readonly Answer[]): Answer {
  const sources = [...new Set(laws.flatMap((one) => one.sources ?? []))]
  const told = { ...byWindow, ...(sources.length === 0 ? {} : { sources }) }
  if (byWindow.answer === 'no' || byWindow.at_h === undefined) return told
  const open = laws.find(({ at_h }) => at_h === undefined)
  if (open !== undefined) {
    const { at_h: _, margin_h: __, ...rest } = told
    return { ...rest, answer: 'no', where: open.where, layer: open.layer, why: open.why }
  }
  const last = laws.reduce<Answer>((a, b) => (b.at_h! > a.at_h! ? b : a), byWindow)
  if (last === byWindow) return told
  const at = last.at_h! * HOUR
  return {
    ...told,
    ...answerOf(target, { at, where: last.where, layer: last.layer, why: last.why, otherwise: 'not yet' }),
  }
}

/** How a place goes on after the oven: its highest temperature, and when, or that it still rises as the plan ends. */
export function carriedOver(course: Course, where: Place): Message[] {
  const { t, T_C } = fineFollow(course, where)
  const end = t.length - 1
  if (end < 1) return []
  let top = 0
  for (let i = 1; i <= end; i++) if (T_C[i]! > T_C[top]!) top = i
  // The air that is left once it stops heating: from then on what still rises is carried over.
  const { air_C } = course
  let off = course.t.length - 1
  while (off > 0 && air_C[off - 1]! <= T_C[top]!) off--
  const from = course.t[off]!
  const rises = trendAtEnd(course, course.follow(where))
  if (top === end && rises > RISING_K_h)
    return [message('baked-still-rising', { last_C: T_C[end]!, rate_K_h: rises }, where)]
  if (off === course.t.length - 1 || t[top]! <= from) return []
  let i = end
  while (i > 0 && t[i]! > from) i--
  const rise_K = T_C[top]! - T_C[i]!
  return rise_K < 0.5
    ? []
    : [message('baked-carried-over', { rise_K, highest_C: T_C[top]!, at_h: toHours(t[top]!) }, where)]
}

/** Faster than this at the end of a plan a core still bakes, K/h. */
const RISING_K_h = 1

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
