import type { Judge, TargetOf } from '../target.ts'
import { answerWhole, type Question } from '../whole-piece.ts'

/** The question behind the target. */
export const cutQuestion = ({ material }: TargetOf<'cut'>): Question => ({
  mark: 'cut',
  what: 'clean to cut',
  ...(material === undefined ? {} : { material }),
})

/** Ready to cut: every place is set and not frozen hard, or frozen just so far that a blade goes through clean. */
export const judgeCut: Judge<'cut'> = (target, course) => answerWhole(target, course, cutQuestion(target))
