import { z } from '../../zod.ts'
import { GAS_CONSTANT } from './arrhenius.ts'
import { byTemperatureAlone, defineLaw, parameter } from './law.ts'

const SLICES = 0.25
const STANDS = 0.4
const LOST = 0.15

/** Nut paste: its oil stays liquid, only the hard fat in it sets, as much as the oil does not dissolve. */
export const nutPaste = defineLaw({
  id: 'nut-paste',
  title: 'hard fat of a nut paste',
  inputs: z
    .strictObject({
      by: z.literal('nut-paste'),
      hard_fat_pct: z.number().min(0).max(100).meta({ description: 'Hard fat, % of all fat.' }),
    })
    .meta({ title: 'Nut paste' }),
  parameters: {
    shift: parameter([-3, 0, 3], 'K', 'choice', ''),
    T_m: parameter([307, 307, 307], 'K', 'estimate', 'ideal solubility of cocoa butter'),
    dH: parameter([118_000, 118_000, 118_000], 'J/mol', 'estimate', 'ideal solubility of cocoa butter'),
  },
  source: 'ideal solubility of the hard fat in the oil (computed)',
  weak: 'good to 3 K; it says how much is solid, not how fast; oil moves into chocolate beside it in days to weeks',
  make({ hard_fat_pct }, { shift, T_m, dH }) {
    const hard = hard_fat_pct / 100
    const solid = (T_C: number): number => {
      const dissolved = Math.exp((-dH / GAS_CONSTANT) * (1 / (T_C - shift + 273.15) - 1 / T_m))
      return dissolved >= 1 ? 0 : Math.max(0, (hard - dissolved) / (1 - dissolved))
    }
    return {
      ...byTemperatureAlone,
      extent: (_, T_C) => solid(T_C),
      criteria: {
        set: { margin: (_, T_C) => solid(T_C) - SLICES },
        firm: { margin: (_, T_C) => solid(T_C) - STANDS },
        cut: { margin: (_, T_C) => solid(T_C) - SLICES },
        lost: { margin: (_, T_C) => LOST - solid(T_C) },
      },
    }
  },
})
