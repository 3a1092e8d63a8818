import type { Change } from '../change.ts'
import { firstCooling, firstHoursIn } from './parts.ts'

/** Its mould in stirred ice water for two hours. */
export const iceBath: Change = {
  id: 'ice-bath',
  title: 'the first two hours in stirred ice water',
  trouble: 'a tight mould, plenty of ice, someone who stirs',
  edit: (plan) => {
    const index = firstCooling(plan)
    return index === undefined ? undefined : firstHoursIn(plan, index, 'Ice bath', 'ice-bath-stirred', 2)
  },
}
