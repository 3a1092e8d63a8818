import type { Draft } from './draft.ts'
import type { PlanStage } from './schema/plan.ts'

/** A stage as it is lived through: repeated ones several times. */
export interface Round<Stage> {
  readonly stage: Stage
  /** Place in the plan's list. */
  readonly index: number
  /** 1 for the first time. */
  readonly round: number
}

/** Longest row of stages that a plan may come to. */
export const MOST_ROUNDS = 400

/**
 * The stages in the order in which they are lived through. A stage that says `repeat` sends the plan back, so that
 * everything from the named stage (itself where none is named) to it is done so many times in all.
 */
export function unrolled<Stage extends PlanStage | Draft<PlanStage>>(
  stages: readonly (Stage | undefined)[],
): Round<Stage>[] {
  const rounds: Round<Stage>[] = []
  for (const [index, stage] of stages.entries()) {
    if (stage === undefined) continue
    rounds.push({ stage, index, round: 1 })
    const first = repeatFrom(stages, index)
    const times = stage.repeat?.times
    if (first === undefined || times === undefined) continue
    for (let round = 2; round <= times; round++) {
      for (let again = first; again <= index && rounds.length < MOST_ROUNDS; again++) {
        const one = stages[again]
        if (one !== undefined) rounds.push({ stage: one, index: again, round })
      }
    }
  }
  return rounds
}

/** Index of the stage at which a repeat begins; undefined without one, or where its name is not an earlier one. */
export function repeatFrom(stages: readonly (Draft<PlanStage> | undefined)[], index: number): number | undefined {
  const repeat = stages[index]?.repeat
  if (repeat === undefined) return undefined
  if (repeat.from === undefined) return index
  const first = stages.findIndex((stage) => stage?.name === repeat.from)
  return first >= 0 && first <= index ? first : undefined
}
