import type { Answer, Verdict } from '../forecast-types.ts'
import type { Place } from '../geometry/body.ts'
import type { Course } from '../journey/course.ts'
import type { Message } from '../messages.ts'
import { HOUR, toHours } from '../units.ts'
import { along } from './crossing.ts'
import type { Target } from './target.ts'

/** What was found about a target; moments in seconds since the start. */
export interface Finding {
  /** When it was reached; absent when it wasn't. */
  readonly at?: number
  /** The place that decides, with its layer's name in the plan. */
  readonly where: Place
  readonly layer: string
  readonly why: Message
  /** Where it wasn't reached, or not as asked: whether it still may be. */
  readonly otherwise: 'not yet' | 'no'
}

/** Yes when reached in time (or within the plan where nothing was asked), not yet when later, else as the finding says. */
function verdictOf({ by }: Target, { at, otherwise }: Finding): Verdict {
  if (at === undefined || otherwise === 'no') return otherwise
  return by === undefined || at <= by ? 'yes' : 'not yet'
}

/** The answer to a target, hours since the start. */
export function answerOf(target: Target, finding: Finding): Answer {
  const { at, where, layer, why } = finding
  const { by } = target
  return {
    target: target.kind,
    index: target.index,
    answer: verdictOf(target, finding),
    ...(at === undefined ? {} : { at_h: toHours(at) }),
    ...(by === undefined ? {} : { by_h: toHours(by) }),
    ...(at === undefined || by === undefined ? {} : { margin_h: toHours(by - at) }),
    where,
    layer,
    why,
  }
}

/** Slower than this counts as standing still, K/h. */
const STILL_K_h = 0.01
/** Stretch at the end over which the trend is taken: an hour, or this share of the last stage if that is longer. */
const TREND_SHARE = 0.05

/** How a curve moves at the end of a course, K/h; over the last stage only, as an earlier one says nothing of what comes. */
export function trendAtEnd(course: Course, T_C: ArrayLike<number>): number {
  const { t } = course
  const { from, to, first, last } = course.stages[course.stages.length - 1]!
  const since = Math.max(from, to - Math.max(HOUR, TREND_SHARE * (to - from)))
  let i = last
  while (i > first && t[i - 1]! >= since) i--
  if (i === first || t[i] === since) return rate(t[i]!, T_C[i]!, t[last]!, T_C[last]!)
  const before_C = along(T_C[i - 1]!, T_C[i]!, t[i - 1]!, t[i]!, since)
  return rate(since, before_C, t[last]!, T_C[last]!)
}

const rate = (from: number, from_C: number, to: number, to_C: number): number =>
  to > from ? (to_C - from_C) / toHours(to - from) : 0

/** Whether a course has come to rest: neither a place nor the mean still moves. */
export function isStill(course: Course, T_C: ArrayLike<number>): boolean {
  return Math.abs(trendAtEnd(course, T_C)) < STILL_K_h && Math.abs(trendAtEnd(course, course.mean_C)) < STILL_K_h
}
