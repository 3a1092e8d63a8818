import { message } from '../../messages.ts'
import type { Change } from '../change.ts'
import { withStages } from './parts.ts'

const TIMES = 1.5

/** The last stage half as long again. */
export const longerRest: Change = {
  id: 'longer-rest',
  title: message('change-longer-rest'),
  trouble: message('trouble-longer-rest'),
  edit: (plan) => {
    const stage = plan.stages.at(-1)
    const { after_h, max_h } = stage?.until ?? {}
    if (stage === undefined || (after_h === undefined && max_h === undefined)) return undefined
    const until = {
      ...stage.until,
      ...(after_h === undefined ? {} : { after_h: TIMES * after_h }),
      ...(max_h === undefined ? {} : { max_h: TIMES * max_h }),
    }
    return withStages(plan, plan.stages.with(-1, { ...stage, until }))
  },
}
