import { message } from '../../messages.ts'
import type { Change } from '../change.ts'
import { firstCooling, firstHoursIn } from './parts.ts'

/** Its mould in stirred ice water for two hours. */
export const iceBath: Change = {
  id: 'ice-bath',
  title: message('change-ice-bath'),
  trouble: message('trouble-ice-bath'),
  edit: (plan) => {
    const index = firstCooling(plan)
    return index === undefined ? undefined : firstHoursIn(plan, index, 'Ice bath', 'ice-bath-stirred', 2)
  },
}
