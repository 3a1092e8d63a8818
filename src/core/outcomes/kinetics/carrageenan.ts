import { z } from '../../zod.ts'
import { coldSetFrame, coldStrength, isDissolved, laidKinds, laidWords } from './cold-set.ts'
import { defineLaw, parameter, reached, reachedCold } from './law.ts'

const supplier = 'property page of a supplier, avijehfarjood.com (seen)'
const SET = 0.9
/** Cool enough to leave its mould, °C (choice). */
const FIRM_C = 15
/** K below melting at which it counts as too warm again. */
const BEFORE_MELTING_K = 5
/** Stress at which it fails, over the modulus (from memory). */
const FAILS_AT = 0.8
/** Below this pH strength is lost. Source: the same page. */
const LEAST_PH = 4.3

/** Carrageenan in milk. */
export const carrageenan = defineLaw({
  id: 'carrageenan',
  title: 'carrageenan',
  inputs: z
    .strictObject({
      by: z.literal('carrageenan'),
      pH: z.number().min(2).max(9).meta({ description: 'pH of the mass.' }).exactOptional(),
      modulus_Pa: z
        .number()
        .gt(0)
        .max(1e6)
        .meta({ description: 'Shear modulus at 20 °C as measured on a cup, Pa; without it strength is not judged.' })
        .exactOptional(),
      laid: z.enum(laidKinds).meta({ description: laidWords }).exactOptional(),
    })
    .meta({ title: 'Carrageenan in milk' }),
  parameters: {
    T_diss: parameter([80, 75, 70], 'degC', 'from memory', ''),
    t_diss: parameter([300, 120, 60], 's', 'choice', ''),
    T_set: parameter([40, 47, 60], 'degC', 'seen in the source', `${supplier}: 40 to 60 °C by salts`),
    T_melt: parameter([50, 62, 75], 'degC', 'from memory', '10 to 20 K above setting'),
    tau_set: parameter([600, 300, 120], 's', 'choice', ''),
    tau_melt: parameter([600, 600, 600], 's', 'choice', ''),
    dT_dev: parameter([15, 10, 7], 'K', 'choice', ''),
  },
  source: supplier,
  weak: 'setting and melting go by the salts of the milk: good to 10 K; strength is not known',
  make({ pH = 6.6, laid = 'dissolved', modulus_Pa }, { T_diss, t_diss, T_set, T_melt, tau_set, tau_melt, dT_dev }) {
    const law = {
      dissolves: { T_C: T_diss, time: t_diss },
      sets_C: T_set,
      melts_C: T_melt,
      setting: tau_set,
      melting: tau_melt,
    }
    return {
      ...coldSetFrame(law, laid),
      criteria: {
        set: reached(SET, 1),
        firm: reachedCold(SET, FIRM_C, 1),
        cut: reachedCold(SET, FIRM_C, 1),
        lost: { margin: (_, T_C) => T_C - (T_melt - BEFORE_MELTING_K) },
      },
      ...(modulus_Pa === undefined
        ? {}
        : {
            strength: {
              modulus: (values, T_C) => modulus_Pa * values[1]! * coldStrength(T_C, T_set, dT_dev),
              failsAt: FAILS_AT,
            },
          }),
      obstacle: (values) =>
        isDissolved(law, values) ? (pH < LEAST_PH ? 'acid-breaks-it' : undefined) : 'never-dissolved',
    }
  },
})
