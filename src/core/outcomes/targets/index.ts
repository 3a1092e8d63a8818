import { assertNever } from '../../errors.ts'
import type { Answer } from '../../forecast-types.ts'
import type { Course } from '../../journey/course.ts'
import { toHours } from '../../units.ts'
import type { Level } from '../kinetics/law.ts'
import type { Target, TargetKind } from '../target.ts'
import { decidersOf, type Question, spansOfDeciders, whichCounts } from '../whole-piece.ts'
import { bakedMoment, judgeBaked } from './baked.ts'
import { coatQuestion, judgeCoat } from './coat.ts'
import { judgeCooled } from './cooled.ts'
import { cutQuestion, judgeCut } from './cut.ts'
import { edgeReader, judgeEdge } from './edge.ts'
import { judgeFrozen } from './frozen.ts'
import { judgeSet, setQuestion } from './set.ts'
import { judgeStay } from './stay.ts'
import { judgeUnmould, unmouldQuestion } from './unmould.ts'

/** What each kind of target is called. */
export const targetTitles: Readonly<Record<TargetKind, string>> = {
  cooled: 'Cooled',
  frozen: 'Frozen',
  baked: 'Baked',
  set: 'Set',
  unmould: 'Ready to unmould',
  coat: 'Ready to coat',
  cut: 'Ready to cut',
  stay: 'Stays set',
  edge: 'Edge not over-baked',
}

/** The answer to a target: when the last place gets there, against the asked time, and why. */
export function judgeTarget(target: Target, course: Course): Answer {
  switch (target.kind) {
    case 'cooled':
      return judgeCooled(target, course)
    case 'frozen':
      return judgeFrozen(target, course)
    case 'baked':
      return judgeBaked(target, course)
    case 'set':
      return judgeSet(target, course)
    case 'unmould':
      return judgeUnmould(target, course)
    case 'coat':
      return judgeCoat(target, course)
    case 'cut':
      return judgeCut(target, course)
    case 'stay':
      return judgeStay(target, course)
    case 'edge':
      return judgeEdge(target, course)
    default:
      return assertNever(target)
  }
}

/** The question about setting that is behind a target; undefined for those that ask for temperatures alone. */
function questionOf(target: Target, course: Course): Question | undefined {
  switch (target.kind) {
    case 'set':
    case 'stay':
      return setQuestion(target)
    case 'unmould':
      return unmouldQuestion(target)
    case 'coat':
      return coatQuestion(target, course)
    case 'cut':
      return cutQuestion(target)
    default:
      return undefined
  }
}

/** The same for targets that ask for temperatures alone: where one place decides, that place is followed. */
function temperatureReader(target: Target, course: Course): (course: Course) => number | undefined {
  if (target.kind === 'edge') return edgeReader(course)
  if (target.kind !== 'baked') return (one) => judgeTarget(target, one).at_h
  const { where } = judgeTarget(target, course)
  return (one) => bakedMoment(target, one, where)
}

/**
 * How the moment of an answer is found again in other courses of the same job, and at other levels of the setting
 * laws: at the places that decide, where it rests on laws.
 * @returns for a course and a level the moment, h; undefined where it is not reached
 */
export function momentReader(target: Target, course: Course): (course: Course, level: Level) => number | undefined {
  const question = questionOf(target, course)
  if (question === undefined) return temperatureReader(target, course)
  const deciders = decidersOf(course, question)
  return (one, level) => {
    const spans = spansOfDeciders(one, level, questionOf(target, one) ?? question, deciders)
    const span = target.kind === 'stay' ? spans[0] : whichCounts(spans, target.by)
    return span === undefined ? undefined : toHours(Math.max(span.from, one.t[0]!))
  }
}
