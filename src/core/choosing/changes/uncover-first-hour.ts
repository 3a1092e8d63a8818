import { message } from '../../messages.ts'
import type { Change } from '../change.ts'
import { isRepeated, splitStage, withStages } from './parts.ts'

/** A cover that comes on an hour later. */
export const uncoverFirstHour: Change = {
  id: 'uncover-first-hour',
  title: message('change-uncover-first-hour'),
  trouble: message('trouble-uncover-first-hour'),
  edit: (plan) => {
    const index = plan.stages.findIndex(({ start }) => start?.some((action) => action.do === 'cover') === true)
    const stage = plan.stages[index]
    if (stage === undefined || isRepeated(plan, index)) return undefined
    const start = stage.start ?? []
    const at = start.findIndex((action) => action.do === 'cover')
    const parts = splitStage({ ...stage, start: start.slice(0, at) }, 1, start.slice(at))
    return parts === undefined ? undefined : withStages(plan, plan.stages.toSpliced(index, 1, ...parts))
  },
}
