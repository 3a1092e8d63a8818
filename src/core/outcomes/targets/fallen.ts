import type { Answer } from '../../forecast-types.ts'
import type { Course } from '../../journey/course.ts'
import { message } from '../../messages.ts'
import { toHours } from '../../units.ts'
import { answerOf, isStill, trendAtEnd } from '../answer.ts'
import { fallsTo, firstAbove, type Passage, SAME_K } from '../crossing.ts'
import { fineHistory } from '../fine-history.ts'
import type { TargetOf } from '../target.ts'

type FallTarget = TargetOf<'cooled' | 'frozen'>

/**
 * Which fall below the asked temperature counts: of those in time the last (what came before was undone by warming),
 * else the first one after; where no time is asked, the last.
 */
function whichCounts(passages: readonly Passage[], by: number | undefined): Passage | undefined {
  const inTime = by === undefined ? passages : passages.filter(({ at }) => at <= by)
  return inTime.at(-1) ?? passages.at(0)
}

/** Whether the whole piece has come down to a temperature: the hottest place decides, wherever it is. */
export function judgeFallen(target: FallTarget, course: Course): Answer {
  const { core_C, by } = target
  const { t, hottest_C } = course
  const fine = fineHistory({ t, T_C: hottest_C })
  const passage = whichCounts(fallsTo(fine.t, fine.T_C, core_C), by)
  if (passage !== undefined) {
    const where = course.hottestAt(sampleAt(t, fine.t[passage.before]!, fine.t[passage.before + 1]!))
    const again = firstAbove(fine.t, fine.T_C, core_C, passage.at)
    const values = { core_C, at_h: toHours(passage.at) }
    const why =
      again === undefined
        ? message('fallen', values, where)
        : message('fallen-then-warmer', { ...values, again_h: toHours(again) }, where)
    return answerOf(target, {
      at: passage.at,
      where,
      layer: course.describe(where).layer,
      why,
      otherwise: 'not yet',
    })
  }
  const last = t.length - 1
  if (firstAbove(t, hottest_C, core_C) === undefined) {
    const where = course.hottestAt(0)
    const why = message('fallen-from-the-start', { core_C }, where)
    return answerOf(target, { at: 0, where, layer: course.describe(where).layer, why, otherwise: 'not yet' })
  }
  const where = course.hottestAt(last)
  return answerOf(target, { where, layer: course.describe(where).layer, ...whyNot(target, course) })
}

/** The last sample not after a moment; of two at that moment the first, where a jump follows. */
function sampleAt(t: ArrayLike<number>, moment: number, next: number): number {
  let i = 0
  while (i < t.length - 1 && (t[i + 1]! < moment || (t[i + 1] === moment && next > moment))) i++
  return i
}

function whyNot({ core_C }: FallTarget, course: Course) {
  const last = course.t.length - 1
  const where = course.hottestAt(last)
  const last_C = course.hottest_C[last]!
  const air_C = course.air_C[last]!
  const rate_K_h = Math.max(0, -trendAtEnd(course, course.hottest_C))
  // No place is there and nothing around is: it can't come down so far.
  if (air_C >= core_C - SAME_K && course.coldest_C[last]! >= core_C - SAME_K)
    return { otherwise: 'no' as const, why: message('air-too-warm', { core_C, air_C, last_C }, where) }
  if (isStill(course, course.hottest_C))
    return { otherwise: 'no' as const, why: message('settled-above', { core_C, last_C }, where) }
  // The heart of a thick piece stands still for hours before it follows: then the mean says where things go.
  if (rate_K_h > 0 || trendAtEnd(course, course.mean_C) < 0)
    return { otherwise: 'not yet' as const, why: message('still-above', { core_C, last_C, rate_K_h }, where) }
  return { otherwise: 'no' as const, why: message('warming-again', { core_C, last_C }, where) }
}
