import { z } from '../../zod.ts'
import { meanArrhenius } from './arrhenius.ts'
import { defineLaw, parameter, reached, reachedCold } from './law.ts'

/** Share of starch that must have swollen. Source: from memory. */
const SET = 0.98
/** Crumb this cool no longer sags on its own, °C (choice). */
const FIRM_C = 40

const zanoni = 'Zanoni, Schiraldi, Simonetta 1995, J. Food Eng. 24, 25 (from memory)'

/** Starch of bread dough and batters of little sugar: first order in what has not swollen. */
export const doughStarch = defineLaw({
  id: 'dough-starch',
  title: 'starch of dough',
  inputs: z.strictObject({ by: z.literal('dough-starch') }).meta({
    title: 'Starch of dough',
    description: 'Bread and lean batters.',
  }),
  parameters: {
    k_ref: parameter([0.000777876, 0.00194469, 0.00388938], '1/s at T_ref', 'from memory', `${zanoni}; band a choice`),
    T_ref: parameter([70, 70, 70], 'degC', 'choice', ''),
    Ea: parameter([139_000, 139_000, 139_000], 'J/mol', 'from memory', zanoni),
  },
  source: zanoni,
  weak: 'its constants disagree with starch measured in water by up to ten times near 85 °C',
  make(_, { k_ref, T_ref, Ea }) {
    const rate = meanArrhenius(k_ref, T_ref, Ea)
    return {
      names: ['swollen'],
      start: () => [0],
      advance(values, from_C, to_C, dt) {
        values[0] = 1 - (1 - values[0]!) * Math.exp(-rate.over(from_C, to_C) * dt)
      },
      extent: (values) => values[0]!,
      criteria: {
        set: reached(SET),
        firm: reachedCold(SET, FIRM_C),
        cut: reachedCold(SET, 21),
      },
    }
  },
})
