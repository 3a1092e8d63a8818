import type { Answer } from '../../forecast-types.ts'
import type { Course } from '../../journey/course.ts'
import { message } from '../../messages.ts'
import { toHours } from '../../units.ts'
import type { Level } from '../kinetics/law.ts'
import { spansAt } from '../setting-places.ts'
import type { Target, TargetKind } from '../target.ts'
import { targetWords } from '../target-words.ts'
import { decidersOf, spansOfDeciders, spansOfWhole, whichCounts } from '../whole-piece.ts'
import { type MomentOf, type TargetWay, ways } from './ways.ts'

/** The way of a target's kind, which takes targets of that kind. */
const wayOf = (target: Target): TargetWay<TargetKind> => ways[target.kind] as TargetWay<TargetKind>

/** Kinds of targets that a stage can wait for though no temperature tells them. */
const waitedFor: readonly TargetKind[] = ['set', 'unmould', 'coat', 'cut']
export const isWaitedFor = (kind: string): boolean => waitedFor.some((one) => one === kind)

/** The first moment from `from` on at which what a target asks for is so everywhere, s; undefined where it never is. */
export function metFrom(target: Target, course: Course, from: number): number | undefined {
  const { question } = wayOf(target)
  const spans = question === undefined ? undefined : spansOfWhole(course, question(target as never, course))
  const span = spans?.find(({ to }) => to > from)
  return span === undefined ? undefined : Math.max(span.from, from)
}

/** The answer to a target: when the last place gets there, against the asked time, and why; what it rests on. */
export function judgeTarget(target: Target, course: Course): Answer {
  const answer = wayOf(target).judge(target as never, course)
  const { source, unknown } = targetWords[target.kind]
  return {
    ...answer,
    notes: [...(answer.notes ?? []), message('target-unknown', { unknown })],
    sources: [...(answer.sources ?? []), source],
  }
}

/**
 * How the other times of an answer's sentences are found again in other courses of the same job, by the key of their
 * value; nothing for a time that is found by judging anew.
 */
export function otherMoments(target: Target, course: Course, answer: Answer): (key: string) => MomentOf | undefined {
  const { question, times = {} } = wayOf(target)
  if (question === undefined) return (key) => times[key]
  const asked = question(target as never, course)
  const deciders = decidersOf(course, asked)
  const spansIn = (one: Course) => spansOfDeciders(one, 'typical', question(target as never, one), deciders)
  const place = answer.why.where === undefined ? undefined : { where: answer.why.where, layer: answer.layer }
  const since = (one: Course): number | undefined => hoursFrom(spansIn(one)[0]?.from, one)
  const readers: Readonly<Record<string, MomentOf>> = {
    again_h: (one) => hoursFrom(whichCounts(spansIn(one), target.by)?.to, one),
    first_h: (one) =>
      answer.first === undefined
        ? undefined
        : hoursFrom(spansAt(one, 'typical', asked.mark, answer.first)?.at(-1)?.from, one),
    since_h: since,
    // Of what is lost again, the place that was first to be.
    at_h: (one) =>
      place === undefined
        ? undefined
        : hoursFrom(
            spansAt(one, 'typical', 'lost', place)?.find(({ from }) => from > (spansIn(one)[0]?.from ?? 0))?.from,
            one,
          ),
  }
  return (key) => readers[key]
}

/** A moment of a course in hours; nothing where it never comes. */
const hoursFrom = (moment: number | undefined, { t }: Course): number | undefined =>
  moment === undefined || !Number.isFinite(moment) ? undefined : toHours(Math.max(moment, t[0]!))

/**
 * How the moment of an answer is found again in other courses of the same job, and at other levels of the setting
 * laws: at the places that decide, where it rests on laws.
 * @returns for a course and a level the moment, h; undefined where it is not reached
 */
export function momentReader(target: Target, course: Course): (course: Course, level: Level) => number | undefined {
  const { judge, question, moment } = wayOf(target)
  if (question === undefined) return moment?.(target as never, course) ?? ((one) => judge(target as never, one).at_h)
  const asked = question(target as never, course)
  const deciders = decidersOf(course, asked)
  return (one, level) => {
    const spans = spansOfDeciders(one, level, question(target as never, one), deciders)
    const span = target.kind === 'stay' ? spans[0] : whichCounts(spans, target.by)
    return span === undefined ? undefined : toHours(Math.max(span.from, one.t[0]!))
  }
}
