import { z } from '../../zod.ts'
import { crystallise, eagerness, FORM_V_C, FULL, formVAt, LIQUID_C, LOST, SET } from './cocoa-butter.ts'
import { defineLaw, parameter } from './law.ts'
import { byTemperature } from './pieces.ts'

const lovegren =
  'Lovegren, Feuge 1965, JAOCS (abstract): well-seeded cocoa butter contracts within half an hour at 16 °C'
/** Crystals that temper leaves in the liquid. */
const SEED = 0.02
const FIRM = 0.95
const FIRM_C = 18
const WARM_C = 27
/** All temper is gone above this, °C. */
const TEMPER_LOST_C = 34
/** Volume that fat loses on setting, and its share of the volume. Source: densities after Beckett 1999 (seen); estimate. */
const CONTRACTION = 0.09
const FAT_VOLUME = 0.38
const WIDEST_K = 0.5

const linearShrink = (solid: number): number => (FAT_VOLUME * CONTRACTION * Math.min(1, solid / FULL)) / 3

/** Chocolate in temper: sets in minutes, shrinks away from its mould. */
export const temperedChocolate = defineLaw({
  id: 'tempered-chocolate',
  title: 'tempered chocolate',
  inputs: z.strictObject({ by: z.literal('tempered-chocolate') }).meta({ title: 'Tempered chocolate' }),
  parameters: {
    k16: parameter([0.0008, 0.0015, 0.003], '1/s at 16 degC', 'estimate', lovegren),
    tau_melt: parameter([120, 120, 120], 's', 'choice', ''),
  },
  source: lovegren,
  weak: 'good to 0.7 to 1.5 times; how well it was tempered is not known',
  make(_, { k16, tau_melt }) {
    return {
      names: ['solid', 'untempered'],
      start: (T_C) => [T_C < LIQUID_C ? formVAt(T_C) : SEED, 0],
      advance(values, from_C, to_C, dt) {
        if (Math.max(from_C, to_C) > TEMPER_LOST_C) values[1] = 1
        byTemperature(from_C, to_C, dt, WIDEST_K, (T_C, part, a_C, b_C) => {
          values[0] = crystallise(
            values[0]!,
            formVAt(a_C),
            formVAt(b_C),
            k16 * eagerness(T_C, FORM_V_C),
            tau_melt,
            part,
          )
        })
      },
      extent: (values) => values[0]! / FULL,
      criteria: {
        set: { margin: (values) => values[0]! / FULL - SET },
        firm: { margin: (values, T_C) => Math.min(values[0]! / FULL - FIRM, (FIRM_C - T_C) / 100) },
        cut: { margin: (values) => values[0]! / FULL - SET },
        lost: { margin: (values, T_C) => Math.max((T_C - WARM_C) / 100, LOST - values[0]! / FULL) },
      },
      shrink: (values) => linearShrink(values[0]!),
      obstacle: (values) => (values[1] === 1 ? 'temper-lost' : undefined),
    }
  },
})
