import { z } from '../../zod.ts'
import { crystallise, eagerness, FORM_V_C, FULL, formVAt, LIQUID_C, LOST, SET } from './cocoa-butter.ts'
import { defineLaw, parameter } from './law.ts'
import { byTemperature, onLines } from './pieces.ts'

/** Finer than elsewhere: when it begins counts. */
const WIDEST_K = 0.1
/** Seconds until untempered chocolate begins to set, at some temperatures (choice, weak). */
const waits = [
  [10, 1200],
  [15, 1200],
  [20, 3600],
  [23, 10_800],
] as const
/** Warmer than this it does not begin, °C. */
const BEGINS_C = 23
/** Form IV melts here, °C. Source: Wille and Lutton 1966 (seen as quoted). */
const FORM_IV_C = 27.5

/** Chocolate out of temper: waits, sets slowly and dull, sticks to its mould. */
export const untemperedChocolate = defineLaw({
  id: 'untempered-chocolate',
  title: 'untempered chocolate',
  inputs: z.strictObject({ by: z.literal('untempered-chocolate') }).meta({ title: 'Untempered chocolate' }),
  parameters: {
    k16: parameter([0.00016, 0.0003, 0.0006], '1/s at 16 degC', 'choice', 'a fifth of that in temper'),
    tau_melt: parameter([120, 120, 120], 's', 'choice', ''),
  },
  source: 'estimate, no source: nobody measured it for a piece',
  weak: 'its times are an estimate without a source; it sets dull, sticks and blooms',
  make(_, { k16, tau_melt }) {
    const lag_K = FORM_V_C - FORM_IV_C
    return {
      names: ['solid', 'waited'],
      start: (T_C) => (T_C < LIQUID_C - lag_K ? [formVAt(T_C + lag_K), 1] : [0, 0]),
      advance(values, from_C, to_C, dt) {
        byTemperature(from_C, to_C, dt, WIDEST_K, (T_C, part, a_C, b_C) => {
          if (T_C <= BEGINS_C) values[1] = values[1]! + part / onLines(waits, T_C)
          const rate = values[1]! >= 1 ? k16 * eagerness(T_C, FORM_IV_C) : 0
          values[0] = crystallise(values[0]!, formVAt(a_C + lag_K), formVAt(b_C + lag_K), rate, tau_melt, part)
        })
      },
      extent: (values) => values[0]! / FULL,
      criteria: {
        set: { margin: (values) => values[0]! / FULL - SET },
        // It is never said to release.
        firm: { margin: () => -1 },
        cut: { margin: (values) => values[0]! / FULL - SET },
        lost: { margin: (values) => LOST - values[0]! / FULL },
      },
      obstacle: () => 'never-releases',
    }
  },
})
