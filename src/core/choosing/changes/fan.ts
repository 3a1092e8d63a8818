import { message } from '../../messages.ts'
import { surroundingsOf } from '../../plan/exchange.ts'
import type { Change } from '../change.ts'
import { editStages, isHot, placedIn } from './parts.ts'

/** The same surroundings with a fan. */
const withFan: Readonly<Record<string, string>> = {
  'room-still': 'room-fan',
  bench: 'room-fan',
  'fridge-static': 'fridge-fan',
}
/** A film below this is that of still air, W/(m² K); moved air about doubles it: common practice, no source. */
const STILL = 15
const TIMES = 2

/** A fan wherever the air stands still. */
export const fan: Change = {
  id: 'fan',
  title: message('change-fan'),
  trouble: message('trouble-fan'),
  edit: (plan) =>
    editStages(plan, (stage) => {
      if (isHot(stage)) return undefined
      const given = surroundingsOf(stage)
      const other = given.like === undefined ? undefined : withFan[given.like]
      // What was measured is of the still air.
      const { measured: _, ...unmeasured } = given
      if (other !== undefined)
        return placedIn(stage, typeof stage.in === 'string' ? other : { ...unmeasured, like: other })
      const { h_W_m2K } = given
      if (h_W_m2K === undefined || h_W_m2K <= 0 || h_W_m2K >= STILL) return undefined
      return placedIn(stage, { ...given, h_W_m2K: TIMES * h_W_m2K })
    }),
}
