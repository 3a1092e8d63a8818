import { message } from '../../messages.ts'
import { surroundingsOf } from '../../plan/exchange.ts'
import type { Change } from '../change.ts'
import { airOf, editStages, isHot, placedIn } from './parts.ts'

const LOWER_K = 20
const LONGER = 1.25

/** The oven 20 K lower, for a quarter longer. */
export const lowerOven: Change = {
  id: 'lower-oven',
  title: message('change-lower-oven', { lower_K: LOWER_K }),
  trouble: message('trouble-lower-oven'),
  edit: (plan) =>
    editStages(plan, (stage) => {
      const air_C = airOf(stage)
      if (!isHot(stage) || air_C === undefined) return undefined
      const { after_h, max_h } = stage.until
      const lower = placedIn(stage, { ...surroundingsOf(stage), air_C: air_C - LOWER_K })
      const until = {
        ...stage.until,
        ...(after_h === undefined ? {} : { after_h: LONGER * after_h }),
        ...(max_h === undefined ? {} : { max_h: LONGER * max_h }),
      }
      return { ...lower, until }
    }),
}
