import { message } from '../../messages.ts'
import { surroundingsOf } from '../../plan/exchange.ts'
import type { Change } from '../change.ts'
import { editStages, placedIn } from './parts.ts'

/** Half of the other goods taken out of the appliance. */
export const smallerLoad: Change = {
  id: 'smaller-load',
  title: message('change-smaller-load'),
  trouble: message('trouble-smaller-load'),
  edit: (plan) =>
    editStages(plan, (stage) => {
      const given = surroundingsOf(stage)
      if (typeof given.appliance !== 'object' || given.appliance.goods === undefined) return undefined
      const { goods } = given.appliance
      return placedIn(stage, {
        ...given,
        appliance: { ...given.appliance, goods: { ...goods, mass_kg: goods.mass_kg / 2 } },
      })
    }),
}
