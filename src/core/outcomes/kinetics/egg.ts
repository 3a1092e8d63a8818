import { z } from '../../zod.ts'
import { meanArrhenius } from './arrhenius.ts'
import { defineLaw, parameter, reached } from './law.ts'
import { byLevels } from './pieces.ts'

const mcgee = 'McGee 2004, On Food and Cooking (pages seen)'

/** Temperature at which ten minutes set nine tenths, by what is mostly in it, °C. */
const setsIn10min_C = {
  'white-soft': 65,
  yolk: 70,
  cheesecake: 71.5,
  whole: 73,
  custard: 80,
  'white-firm': 80,
} as const
const kinds = ['white-soft', 'yolk', 'cheesecake', 'whole', 'custard', 'white-firm'] as const

const SET = 0.9
/** A custard curdles when it was this much hotter than it sets, K, for this long in all, s. */
const CURDLES_K = 5
const CURDLES_S = 300
/** A cheesecake cracks above this, °C. Source: chart of core temperatures, renecarter.wordpress.com 2016 (seen). */
const CRACKS_C = 71
/** A custard slices when it has been this cold for this long (choice). */
const FIRM_C = 8
const FIRM_S = 4 * 3600
/** K by which sugar delays setting, per g in 100 g of sugar and water (from memory). */
const SUGAR_K = { low: 0.3, typical: 0.2, high: 0.1 } as const

/** Egg that sets on heating: first order, ten minutes at a named temperature set nine tenths. */
export const egg = defineLaw({
  id: 'egg',
  title: 'egg',
  inputs: z
    .strictObject({
      by: z.literal('egg'),
      kind: z
        .enum(kinds)
        .meta({ description: 'What sets: white (first network or firm), yolk, whole egg, custard, baked cheesecake.' }),
      sugar_pct: z
        .number()
        .min(0)
        .max(60)
        .meta({
          description:
            'Sugar in 100 g of sugar and water beyond that of an ordinary mass of this kind, g; 0 if left out.',
        })
        .exactOptional(),
    })
    .meta({ title: 'Egg' }),
  parameters: {
    shift: parameter([2, 0, -2], 'K', 'choice', ''),
    k_ref: parameter([0.00383764, 0.00383764, 0.00383764], '1/s where it sets', 'choice', 'ln 10 in 600 s'),
    Ea: parameter(
      [380_000, 380_000, 380_000],
      'J/mol',
      'from memory',
      'range 300 to 470 kJ/mol for globular proteins; yolk 470: Vega, Mercade-Prieto 2011',
    ),
  },
  source: mcgee,
  weak: 'reading a setting temperature as ten minutes to nine tenths is a choice; dilution and acid shift it by kelvins',
  make({ kind, sugar_pct = 0 }, { shift, k_ref, Ea }, level) {
    const own_C = kind === 'cheesecake' ? 71.5 + 0.75 * shift : setsIn10min_C[kind] + shift
    const sets_C = own_C + SUGAR_K[level] * sugar_pct
    const rate = meanArrhenius(k_ref, sets_C, Ea)
    const curdles_C = sets_C + CURDLES_K
    return {
      names: ['coagulated', 'curdling'],
      start: () => [0, 0],
      advance(values, from_C, to_C, dt) {
        values[0] = 1 - (1 - values[0]!) * Math.exp(-rate.over(from_C, to_C) * dt)
        byLevels(from_C, to_C, dt, [curdles_C], (from, to, part) => {
          if (from + to >= 2 * curdles_C) values[1] = values[1]! + part
        })
      },
      extent: (values) => values[0]!,
      criteria: {
        set: reached(SET),
        firm: {
          margin: (values, T_C) => Math.min(values[0]! - SET, (FIRM_C - T_C) / 100),
          lasting: FIRM_S,
        },
        cut: { margin: (values, T_C) => Math.min(values[0]! - SET, (FIRM_C - T_C) / 100), lasting: FIRM_S },
        overdone: kind === 'cheesecake' ? { margin: (_, T_C) => T_C - CRACKS_C } : reached(CURDLES_S, 1),
      },
    }
  },
})
