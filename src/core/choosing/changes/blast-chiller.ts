import type { Change } from '../change.ts'
import { firstCooling, firstHoursIn } from './parts.ts'

/** Two hours in a blast chiller before what comes then. */
export const blastChiller: Change = {
  id: 'blast-chiller',
  title: 'the first two hours in a blast chiller',
  trouble: 'a blast chiller that takes it; open faces dry sooner',
  edit: (plan) => {
    const index = firstCooling(plan)
    return index === undefined ? undefined : firstHoursIn(plan, index, 'Blast chiller', 'blast-chiller', 2)
  },
}
