import type { Judge, TargetOf } from '../target.ts'
import { answerWhole, type Question } from '../whole-piece.ts'

/** The question behind the target. */
export const setQuestion = ({ material }: TargetOf<'set' | 'stay'>): Question => ({
  mark: 'set',
  what: 'set',
  ...(material === undefined ? {} : { material }),
})

/** Set: every place holds together by the setting laws of its material; the last one decides. */
export const judgeSet: Judge<'set'> = (target, course) => answerWhole(target, course, setQuestion(target))
