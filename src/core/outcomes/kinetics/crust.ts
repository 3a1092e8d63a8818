import { z } from '../../zod.ts'
import { meanArrhenius } from './arrhenius.ts'
import { defineLaw, parameter } from './law.ts'
import { byLevels } from './pieces.ts'

const zanoni =
  'Zanoni, Peri, Bruno 1995, LWT 28, 604 (abstract with all constants), measured from 140 to 250 °C on dried crumb'

/** A wet surface does not brown, °C (choice). */
const DRY_C = 105
/** Change of colour from which a crust is golden, dark, burnt (choice; 52 is the end of the scale). */
export const COLOURS = { golden: 18, dark: 32, burnt: 42 } as const

/** Browning of a dry crust. */
export const crust = defineLaw({
  id: 'crust',
  title: 'browning of the crust',
  inputs: z.strictObject({ by: z.literal('crust') }).meta({ title: 'Crust' }),
  parameters: {
    k_ref: parameter(
      [0.000354446, 0.000506352, 0.000708892],
      '1/s at T_ref',
      'seen in the source',
      `${zanoni}; band a choice`,
    ),
    T_ref: parameter([150, 150, 150], 'degC', 'choice', ''),
    Ea: parameter([64_151, 64_151, 64_151], 'J/mol', 'seen in the source', zanoni),
    dE_inf: parameter([52, 52, 52], '', 'seen in the source', zanoni),
  },
  source: zanoni,
  weak: 'colour of a lean crumb; sugar and milk brown sooner',
  make(_, { k_ref, T_ref, Ea, dE_inf }) {
    const rate = meanArrhenius(k_ref, T_ref, Ea)
    return {
      names: ['colour'],
      start: () => [0],
      advance(values, from_C, to_C, dt) {
        byLevels(from_C, to_C, dt, [DRY_C], (from, to, part) => {
          if (from + to <= 2 * DRY_C) return
          values[0] = dE_inf - (dE_inf - values[0]!) * Math.exp(-rate.over(from, to) * part)
        })
      },
      extent: (values) => values[0]! / dE_inf,
      criteria: { overdone: { margin: (values) => values[0]! - COLOURS.burnt } },
    }
  },
})
