import { message } from '../../messages.ts'
import { surroundingsOf } from '../../plan/exchange.ts'
import type { Change } from '../change.ts'
import { airOf, editStages, isCold, placedIn } from './parts.ts'

const COLDER_K = 2

/** Thermostats of what is cold 2 K lower. */
export const colderSetting: Change = {
  id: 'colder-setting',
  title: message('change-colder-setting'),
  trouble: message('trouble-colder-setting'),
  edit: (plan) =>
    editStages(plan, (stage) => {
      const air_C = airOf(stage)
      if (!isCold(stage) || air_C === undefined) return undefined
      const given = surroundingsOf(stage)
      const colder = { ...given, air_C: air_C - COLDER_K }
      const { appliance } = given
      if (typeof appliance !== 'object' || appliance.set_C === undefined) return placedIn(stage, colder)
      return placedIn(stage, { ...colder, appliance: { ...appliance, set_C: appliance.set_C - COLDER_K } })
    }),
}
