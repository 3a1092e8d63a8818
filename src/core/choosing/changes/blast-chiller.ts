import { message } from '../../messages.ts'
import type { Change } from '../change.ts'
import { firstCooling, firstHoursIn } from './parts.ts'

/** Two hours in a blast chiller before what comes then. */
export const blastChiller: Change = {
  id: 'blast-chiller',
  title: message('change-blast-chiller'),
  trouble: message('trouble-blast-chiller'),
  edit: (plan) => {
    const index = firstCooling(plan)
    return index === undefined ? undefined : firstHoursIn(plan, index, 'Blast chiller', 'blast-chiller', 2)
  },
}
