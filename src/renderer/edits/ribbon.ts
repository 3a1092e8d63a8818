import type { Plan } from '../../core/plan/schema/plan.ts'
import { unrolled } from '../../core/plan/unrolled.ts'
import { writeAt } from './path.ts'
import { endKind } from './stages.ts'

/** A stretch of the ribbon: a stage of the plan as it is lived through for the first time. */
export interface RibbonStage {
  /** Place in the plan's list. */
  readonly index: number
  readonly name: string
  readonly from_h: number
  readonly to_h: number
  /** Whether a length in hours ends it, so that its end can be dragged. */
  readonly byLength: boolean
}

interface Span {
  readonly from_h: number
  readonly to_h: number
}

/** The stages of a plan over the spans of its forecast; rounds of a repeat after the first belong to nothing else. */
export function ribbonStages(plan: Plan, spans: readonly Span[]): RibbonStage[] {
  return unrolled(plan.stages).flatMap(({ stage, index, round }, at) => {
    const span = spans[at]
    if (span === undefined || round > 1) return []
    const byLength = endKind(stage) === 'after' && stage.until.after_h !== undefined
    return [{ index, name: stage.name, from_h: span.from_h, to_h: span.to_h, byLength }]
  })
}

/** Steps of a dragged length: quarters of an hour, five minutes in a short plan. */
const stepOf = (whole_h: number): number => (whole_h > 12 ? 0.25 : 1 / 12)

/** Longest that a stage may be told to last, h. */
const LONGEST_H = 2000

/** The plan with a stage that lasts so many hours, to the ribbon's step. */
export function withLength(plan: Plan, index: number, hours: number, whole_h: number): Plan {
  const step = stepOf(whole_h)
  const told = Math.round(Math.max(1, Math.round(hours / step)) * step * 1000) / 1000
  return writeAt(plan, `stages[${index}].until.after_h`, Math.min(LONGEST_H, told))
}

/** Where a stage dropped at `at_h` goes in the order: before the first stage whose middle lies behind it. */
export function dropIndex(stages: readonly RibbonStage[], moved: number, at_h: number): number {
  const others = stages.filter(({ index }) => index !== moved)
  const before = others.filter(({ from_h, to_h }) => (from_h + to_h) / 2 < at_h)
  return before.length
}
