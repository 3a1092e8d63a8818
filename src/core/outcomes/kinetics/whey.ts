import { z } from '../../zod.ts'
import { meanArrhenius } from './arrhenius.ts'
import { defineLaw, parameter } from './law.ts'
import { byLevels } from './pieces.ts'

const lyster = 'fit to the table of Larson and Rolleri 1955 and Lyster 1970, reprinted in JMSB 35(4), 270 (seen)'
/** Above this the rate hardly grows, °C. Source: Dannenberg, Kessler 1988, J. Food Sci. (abstract). */
const BREAK_C = 90
const SET = 0.9
/** Cold enough for long enough to slice (choice). */
const FIRM_C = 8
const FIRM_S = 4 * 3600

/** Whey protein of heated fresh-cheese masses: second order in what is native. */
export const whey = defineLaw({
  id: 'whey',
  title: 'whey protein',
  inputs: z
    .strictObject({ by: z.literal('whey') })
    .meta({ title: 'Whey protein', description: 'Heated fresh cheese.' }),
  parameters: {
    k_ref: parameter([0.0003453, 0.000518, 0.0008104], '1/s at T_ref', 'estimate', lyster),
    T_ref: parameter([75, 75, 75], 'degC', 'choice', ''),
    Ea: parameter([277_027, 277_027, 253_370], 'J/mol', 'estimate', lyster),
  },
  source: lyster,
  weak: 'valid from 60 to 90 °C; curd, starch and sugar beside it are left out',
  make(_, { k_ref, T_ref, Ea }) {
    const rate = meanArrhenius(k_ref, T_ref, Ea, [-40, BREAK_C])
    return {
      names: ['native'],
      start: () => [1],
      advance(values, from_C, to_C, dt) {
        byLevels(from_C, to_C, dt, [BREAK_C], (from, to, part) => {
          values[0] = 1 / (1 / values[0]! + rate.over(from, to) * part)
        })
      },
      extent: (values) => 1 - values[0]!,
      criteria: {
        set: { margin: (values) => 1 - values[0]! - SET },
        firm: { margin: (values, T_C) => Math.min(1 - values[0]! - SET, (FIRM_C - T_C) / 100), lasting: FIRM_S },
        cut: { margin: (values, T_C) => Math.min(1 - values[0]! - SET, (FIRM_C - T_C) / 100), lasting: FIRM_S },
      },
    }
  },
})
