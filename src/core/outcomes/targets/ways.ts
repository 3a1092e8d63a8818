import type { Course } from '../../journey/course.ts'
import type { Judge, TargetKind, TargetOf } from '../target.ts'
import type { Question } from '../whole-piece.ts'
import { bakedMoment, judgeBaked } from './baked.ts'
import { coatQuestion, judgeCoat } from './coat.ts'
import { judgeCooled } from './cooled.ts'
import { cutQuestion, judgeCut } from './cut.ts'
import { edgeReader, edgeTimes, judgeEdge } from './edge.ts'
import { judgeFrozen } from './frozen.ts'
import { judgeSet, setQuestion } from './set.ts'
import { judgeStay } from './stay.ts'
import { judgeUnmould, unmouldQuestion } from './unmould.ts'

/** Reads from any course of a job when what a target asks for comes, h; undefined where it doesn't. */
export type MomentOf = (course: Course) => number | undefined

/** How a kind of target is answered, and how its moment is found again in other courses of the same job. */
export interface TargetWay<Kind extends TargetKind> {
  readonly judge: Judge<Kind>
  /** The question about setting that is behind it; absent where it asks for temperatures alone. */
  readonly question?: (target: TargetOf<Kind>, course: Course) => Question
  /** Where it asks for temperatures alone; judged anew where left out. */
  readonly moment?: (target: TargetOf<Kind>, course: Course) => MomentOf
  /** How other times of its sentences are found again, by the key of their value; judged anew where left out. */
  readonly times?: Readonly<Record<string, MomentOf>>
}

/** Every kind of target; one more is one more file, its line here and its words in `target-words.ts`. */
export const ways: { readonly [Kind in TargetKind]: TargetWay<Kind> } = {
  cooled: { judge: judgeCooled },
  frozen: { judge: judgeFrozen },
  baked: { judge: judgeBaked, moment: bakedMoment },
  set: { judge: judgeSet, question: setQuestion },
  unmould: { judge: judgeUnmould, question: unmouldQuestion },
  coat: { judge: judgeCoat, question: coatQuestion },
  cut: { judge: judgeCut, question: cutQuestion },
  stay: { judge: judgeStay, question: setQuestion },
  edge: { judge: judgeEdge, moment: edgeReader, times: edgeTimes },
}
