import { z } from '../../zod.ts'
import { starches, starchParameters, swell, swellsAt } from './batter-starch.ts'
import { defineLaw, parameter } from './law.ts'
import { byLevels, clamp } from './pieces.ts'

const miles = 'Miles, Morris, Orford, Ring 1985, Carbohydr. Res. 135, 271 (from memory): amylose gels within hours'
const SET = 0.5
const SLICES = 0.7
const SLICES_C = 12
const LOST = 0.55
const COOKED = 0.95
/** Boiled long enough that granules burst and yolk's amylase is stopped. Source: McGee 2004 (from memory). */
const BOILS_C = 90
const BOILS_S = 60
/** Stress at which it fails, over the modulus (from memory). */
const FAILS_AT = 0.45

/** Starch cream: cooked, then thicker with every kelvin down and firmer as its amylose gels. */
export const starchCream = defineLaw({
  id: 'starch-cream',
  title: 'starch cream',
  inputs: z
    .strictObject({
      by: z.literal('starch-cream'),
      starch_pct: z.number().gt(0).max(20).meta({ description: 'Starch, g in 100 g of the mass.' }),
      sugar_pct: z
        .number()
        .min(0)
        .max(60)
        .meta({ description: 'Sugar in 100 g of sugar and water, g; 0 if left out.' })
        .exactOptional(),
      starch: z.enum(starches).meta({ description: 'Kind of starch; maize if left out.' }).exactOptional(),
      laid: z
        .enum(['boiled', 'raw', 'set'])
        .meta({ description: 'How it comes: boiled before, raw, or cold and set; boiled if left out.' })
        .exactOptional(),
    })
    .meta({ title: 'Starch cream' }),
  parameters: {
    ...starchParameters,
    tau_a: parameter([14_400, 7200, 3600], 's', 'from memory', miles),
    T_a: parameter([45, 55, 65], 'degC', 'choice', ''),
    G7: parameter([600, 1500, 4000], 'Pa', 'from memory', '7 % maize starch custard at 5 °C'),
  },
  source: miles,
  weak: 'its firmness is a design value, times good to half or twice; frozen and thawed it weeps; try a cup',
  make({ starch_pct, sugar_pct = 0, starch = 'maize', laid = 'boiled' }, { dT, Ea, width, beta_ref, tau_a, T_a, G7 }) {
    const firmest = G7 * (starch_pct / 7) ** 2.5
    const turns_C = [T_a, BOILS_C]
    const cooks = { swells_C: swellsAt(starch, sugar_pct, dT), Ea, width, beta_ref }
    const firmness = (values: ArrayLike<number>, T_C: number): number =>
      values[0]! * clamp((85 - T_C) / 80, 0, 1) * (0.3 + 0.7 * values[1]!)
    return {
      names: ['cooked', 'retrograded', 'boiling'],
      start: () => (laid === 'raw' ? [0, 0, 0] : [1, laid === 'set' ? 1 : 0, BOILS_S]),
      advance(values, from_C, to_C, dt) {
        values[0] = swell(values[0]!, from_C, to_C, dt, cooks)
        byLevels(from_C, to_C, dt, turns_C, (from, to, part) => {
          if (from + to >= 2 * BOILS_C) values[2] = values[2]! + part
          if (from + to < 2 * T_a) values[1] = 1 - (1 - values[1]!) * Math.exp(-part / tau_a)
        })
      },
      extent: (values, T_C) => firmness(values, T_C),
      criteria: {
        set: { margin: (values, T_C) => firmness(values, T_C) - SET },
        firm: { margin: (values, T_C) => Math.min(firmness(values, T_C) - SLICES, (SLICES_C - T_C) / 100) },
        cut: { margin: (values, T_C) => Math.min(firmness(values, T_C) - SLICES, (SLICES_C - T_C) / 100) },
        lost: { margin: (values, T_C) => LOST - firmness(values, T_C) },
      },
      strength: {
        modulus: (values, T_C) => firmest * firmness(values, T_C),
        failsAt: FAILS_AT,
      },
      obstacle: (values) => (values[0]! >= COOKED && values[2]! >= BOILS_S ? undefined : 'never-cooked'),
    }
  },
})
