import { z } from '../../zod.ts'
import { coldSetFrame, coldStrength, isDissolved, laidKinds, laidWords } from './cold-set.ts'
import { defineLaw, parameter, reachedCold } from './law.ts'
import { onLines } from './pieces.ts'

const spec = 'specification of a batch, 1.5 % gel, rapidlabs.co.uk (seen)'
const SET = 0.9
/** Set for this long, and this cool, before it leaves its mould (choice). */
const FIRM_S = 3600
const FIRM_C = 25
/** It softens from here on, long before it melts, °C (choice). */
const SOFT_C = 60
/** Below its setting point by this much it counts as set, K (choice). */
const BELOW_K = 5
/** Modulus at which it fails. Source: Sharma, Bhattacharya 2014, J. Food Eng. (abstract): fracture strain 0.23 to 0.40 at 2 %. */
const FAILS_AT = 0.9

/** Gain by sugar, per cent of the water phase. Source: Gracilaria agars of Vietnam, Maurer et al. 2012, Yang et al. 2015 (abstracts); the line is a choice. */
const bySugar = [
  [0, 1],
  [30, 1.6],
  [45, 1.6],
  [60, 0.6],
] as const
/** Loss by acid boiled in with it (choice; usable from pH 5 to 8 by the batch specification). */
const byAcid = [
  [3.4, 0],
  [4, 0.4],
  [4.5, 0.7],
  [5, 1],
] as const
/** K by which 30 % of sugar raises its setting point (estimate from the same study of Vietnam). */
const SUGAR_K = 2

/** Agar: dissolved by boiling only, sets near 37 °C, melts near 88 °C. */
export const agar = defineLaw({
  id: 'agar',
  title: 'agar',
  inputs: z
    .strictObject({
      by: z.literal('agar'),
      agar_pct: z.number().gt(0).max(5).meta({ description: 'Agar, g in 100 g of the mass.' }),
      sugar_pct: z
        .number()
        .min(0)
        .max(70)
        .meta({ description: 'Sugar in the watery part, %; 0 if left out.' })
        .exactOptional(),
      pH: z.number().min(2).max(9).meta({ description: 'pH where acid is boiled in with it.' }).exactOptional(),
      laid: z.enum(laidKinds).meta({ description: laidWords }).exactOptional(),
    })
    .meta({ title: 'Agar' }),
  parameters: {
    T_diss: parameter([98, 95, 90], 'degC', 'seen in the source', 'technical sheet, scribd 726493585: 95 to 100 °C'),
    t_diss: parameter([300, 120, 60], 's', 'choice', ''),
    T_set: parameter([33, 37, 42], 'degC', 'seen in the source', `${spec}; 28 to 43 over treatments`),
    T_melt: parameter([82, 88, 95], 'degC', 'seen in the source', `${spec}: 92.4, not below 85; others 96 to 99.6`),
    tau_set: parameter([600, 300, 180], 's', 'choice', ''),
    tau_melt: parameter([600, 600, 600], 's', 'choice', ''),
    dT_dev: parameter([7, 5, 4], 'K', 'choice', ''),
    G15: parameter([15_000, 25_000, 40_000], 'Pa', 'from memory', 'agar rheology, order of magnitude'),
  },
  source: spec,
  weak: 'its strength differs by grade and water: order of magnitude; try a cup',
  make(
    { agar_pct, sugar_pct = 0, pH = 7, laid = 'dissolved' },
    { T_diss, t_diss, T_set, T_melt, tau_set, tau_melt, dT_dev, G15 },
  ) {
    const sets_C = T_set + SUGAR_K * Math.min(1, sugar_pct / 30)
    const law = {
      dissolves: { T_C: T_diss, time: t_diss },
      sets_C,
      melts_C: T_melt,
      setting: tau_set,
      melting: tau_melt,
    }
    const full = G15 * (agar_pct / 1.5) ** 2 * onLines(bySugar, sugar_pct) * onLines(byAcid, pH)
    return {
      ...coldSetFrame(law, laid),
      criteria: {
        set: { margin: (values, T_C) => Math.min(values[1]! - SET, (sets_C - BELOW_K - T_C) / 100) },
        firm: {
          margin: (values, T_C) => Math.min(values[1]! - SET, (FIRM_C - T_C) / 100),
          lasting: FIRM_S,
        },
        cut: reachedCold(SET, FIRM_C, 1),
        lost: { margin: (values, T_C) => Math.max((T_C - SOFT_C) / 100, 0.5 - values[1]!) },
      },
      strength: {
        modulus: (values, T_C) => full * values[1]! * coldStrength(T_C, sets_C, dT_dev),
        failsAt: FAILS_AT,
      },
      obstacle: (values) =>
        isDissolved(law, values) ? (full === 0 ? 'acid-breaks-it' : undefined) : 'never-dissolved',
    }
  },
})
