import { message } from '../../messages.ts'
import { surroundingsOf } from '../../plan/exchange.ts'
import type { Change } from '../change.ts'
import { airOf, editStages, placedIn } from './parts.ts'

/** Every freezer a blast freezer. */
export const blastFreezer: Change = {
  id: 'blast-freezer',
  title: message('change-blast-freezer'),
  trouble: message('trouble-blast-freezer'),
  edit: (plan) =>
    editStages(plan, (stage) => {
      const air_C = airOf(stage)
      if (air_C === undefined || air_C > -8 || surroundingsOf(stage).like === 'blast-freezer') return undefined
      return placedIn(stage, 'blast-freezer')
    }),
}
