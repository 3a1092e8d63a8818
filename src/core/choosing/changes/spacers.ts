import { message } from '../../messages.ts'
import type { Change } from '../change.ts'
import { firstCooling, withStages } from './parts.ts'

/** Air under the piece: spacers in place of a board or shelf. */
export const spacers: Change = {
  id: 'spacers',
  title: message('change-spacers'),
  trouble: message('trouble-spacers'),
  edit: (plan) => {
    const index = firstCooling(plan)
    const stage = index === undefined ? undefined : plan.stages[index]
    if (index === undefined || stage === undefined) return undefined
    const start = stage.start ?? []
    if (start.some((action) => action.do === 'stand' && action.on === 'spacers')) return undefined
    const others = start.filter((action) => action.do !== 'stand')
    // A board that a face of the surroundings gives goes too.
    const without = (given: typeof stage.in): typeof stage.in => {
      if (typeof given === 'string' || given.faces?.bottom === undefined) return given
      const { board_mm: _, ...bottom } = given.faces.bottom
      return { ...given, faces: { ...given.faces, bottom } }
    }
    const changed = {
      ...stage,
      in: without(stage.in),
      start: [...others, { do: 'stand' as const, on: 'spacers' as const }],
    }
    return withStages(plan, plan.stages.with(index, changed))
  },
}
