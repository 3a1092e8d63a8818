import { z } from '../../zod.ts'
import { crystallise, formVAt } from './cocoa-butter.ts'
import { defineLaw, parameter, reached } from './law.ts'
import { byTemperature, onLines, tabulated } from './pieces.ts'

const handbook =
  'dairy handbook, page 207, issuhub.com 5299 (seen): up to 50 % in the fridge, 10 to 20 % at 20 °C; between from memory'
const balance = [
  [0, 0.6],
  [5, 0.5],
  [10, 0.43],
  [15, 0.31],
  [20, 0.18],
  [25, 0.11],
  [30, 0.06],
  [35, 0.01],
  [37, 0],
] as const
const FIRM = 0.35
const SPREADABLE = 0.12
const LOST = 0.1
/** A mass with this much solid fat has crystals enough to go on from. */
const SEEDED = 0.02
/** How much lower mixed fats of milk and cocoa melt, K (from memory: 2 to 4). */
const EUTECTIC_K = 3
const WIDEST_K = 0.5

/** Milk fat, and its mixtures with cocoa butter: butter cream, ganache. */
export const milkFat = defineLaw({
  id: 'milk-fat',
  title: 'milk fat',
  inputs: z
    .strictObject({
      by: z.literal('milk-fat'),
      cocoa_butter_pct: z
        .number()
        .min(0)
        .max(90)
        .meta({ description: 'Cocoa butter, % of the fat; 0 if left out.' })
        .exactOptional(),
    })
    .meta({ title: 'Milk fat', description: 'Butter cream, ganache, creams that their fat makes firm.' }),
  parameters: {
    tau_c: parameter([14_400, 7200, 3600], 's', 'from memory', ''),
    tau_melt: parameter([600, 600, 600], 's', 'choice', ''),
    T_nuc: parameter([15, 18, 20], 'degC', 'from memory', ''),
  },
  source: handbook,
  weak: 'fat of winter and summer differ; times good to half or twice; air and sugar beside it are left out',
  make({ cocoa_butter_pct = 0 }, { tau_c, tau_melt, T_nuc }) {
    const cocoa = cocoa_butter_pct / 100
    const lower_K = cocoa === 0 ? 0 : EUTECTIC_K
    const mixed = (T_C: number): number =>
      (1 - cocoa) * onLines(balance, T_C + lower_K) + cocoa * formVAt(T_C + lower_K)
    // Every corner of the two curves lies on a node.
    const at = tabulated(mixed, -5, 40, 0.5)
    return {
      names: ['solid'],
      start: (T_C) => [T_C < T_nuc ? at(T_C) : at(Math.max(T_C, 30))],
      advance(values, from_C, to_C, dt) {
        byTemperature(from_C, to_C, dt, WIDEST_K, (T_C, part, a_C, b_C) => {
          const begun = T_C < T_nuc || values[0]! > SEEDED
          values[0] = crystallise(values[0]!, at(a_C), at(b_C), begun ? 1 / tau_c : 0, tau_melt, part)
        })
      },
      extent: (values) => values[0]!,
      criteria: {
        set: reached(FIRM),
        firm: reached(FIRM),
        cut: reached(SPREADABLE),
        lost: { margin: (values) => LOST - values[0]! },
      },
    }
  },
})
