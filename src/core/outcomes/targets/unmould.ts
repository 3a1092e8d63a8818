import type { Judge, TargetOf } from '../target.ts'
import { answerWhole, type Question } from '../whole-piece.ts'

/** The question behind the target. */
export const unmouldQuestion = ({ material }: TargetOf<'unmould'>): Question => ({
  mark: 'firm',
  what: 'firm enough to leave its mould',
  ...(material === undefined ? {} : { material }),
})

/**
 * Ready to unmould: every place is firm enough by its setting laws, or frozen hard; where its strength is known it
 * also bears the piece's own weight as a free column, and chocolate has shrunk away from the wall.
 */
export const judgeUnmould: Judge<'unmould'> = (target, course) => answerWhole(target, course, unmouldQuestion(target))
