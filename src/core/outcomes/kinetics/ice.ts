import { z } from '../../zod.ts'
import { byTemperatureAlone, defineLaw, parameter, type SettingLaw } from './law.ts'

const SCOOPS = 0.65
/** Hard enough to leave its mould, and this cold (choice). */
const HARD = 0.75
const HARD_C = -12
/** Between these shares a blade goes through clean (choice: -5.5 to -7.7 °C in an ordinary cream). */
export const CUTS = [0.5, 0.62] as const
const SOFT = 0.5

/** Share of all water that is ice, 0 to 1, by the ideal law of freezing-point depression; `never` stays liquid. */
export const frozenShare = (T_C: number, begins_C: number, never: number): number =>
  T_C < begins_C ? (1 - never) * (1 - begins_C / T_C) : 0

/** What is asked of a share of ice. */
export function iceCriteria(frozen: (T_C: number) => number): SettingLaw['criteria'] {
  return {
    set: { margin: (_, T_C) => frozen(T_C) - SCOOPS },
    firm: { margin: (_, T_C) => Math.min(frozen(T_C) - HARD, (HARD_C - T_C) / 100) },
    cut: { margin: (_, T_C) => Math.min(frozen(T_C) - CUTS[0], CUTS[1] - frozen(T_C)) },
    lost: { margin: (_, T_C) => SOFT - frozen(T_C) },
  }
}

/** What ice makes firm: no time of its own, the share of water that is frozen at a temperature. */
export const ice = defineLaw({
  id: 'ice',
  title: 'ice',
  inputs: z
    .strictObject({
      by: z.literal('ice'),
      freezes_C: z
        .number()
        .min(-30)
        .max(-0.1)
        .meta({ description: 'Where it begins to freeze, °C; −2.5 if left out.' })
        .exactOptional(),
    })
    .meta({ title: 'Ice', description: 'Frozen creams.' }),
  parameters: {
    Tf: parameter(
      [-3.5, -2.5, -1.8],
      'degC',
      'seen in the source',
      'text on ice-cream mixes: -2.5 at 15 % sugar, -1.4 to -3',
    ),
    b: parameter([0.1, 0.08, 0.06], '', 'from memory', 'share of water that never freezes'),
  },
  source: 'ideal freezing point depression; about 80 % at -18 °C: biologyinsights.com (seen)',
  weak: 'the ideal law runs 5 to 10 points high between -6 and -9 °C; hardness goes by air and crystal size too',
  make({ freezes_C }, { Tf, b }) {
    const begins_C = freezes_C === undefined ? Tf : freezes_C * (Tf / -2.5)
    const frozen = (T_C: number): number => frozenShare(T_C, begins_C, b)
    return {
      ...byTemperatureAlone,
      extent: (_, T_C) => frozen(T_C),
      criteria: iceCriteria(frozen),
    }
  },
})
