import { z } from '../../zod.ts'
import { arrhenius, GAS_CONSTANT } from './arrhenius.ts'
import { defineLaw, parameter, reached, reachedCold } from './law.ts'
import { byTemperature, clamp } from './pieces.ts'

/** Where each starch swells in water, °C. Source: Lund 1984; BeMiller and Whistler 2009 (from memory). */
export const swelling_C = { wheat: 63, maize: 71, potato: 63, tapioca: 66, rice: 72 } as const
export const starches = ['wheat', 'maize', 'potato', 'tapioca', 'rice'] as const
export type Starch = (typeof starches)[number]

/** Share of starch that must have swollen. */
const SET = 0.95
/** Temperatures at which a crumb is firm enough to handle and to slice, °C. Source: choice; trade article on slicing, bakingbusiness.com (seen). */
const FIRM_C = 45
const SLICE_C = 21
/** Above this no batter's starch waits, °C. */
const LATEST_C = 98
/** Cut pieces so fine that the share which can swell changes by 4 %. */
const WIDEST_K = 0.5

export const starchParameters = {
  dT: parameter([4, 0, -4], 'K', 'choice', ''),
  Ea: parameter([260_000, 260_000, 260_000], 'J/mol', 'estimate', 'from an endotherm 9 to 10 K wide at half height'),
  width: parameter(
    [12, 12, 12],
    'K',
    'choice',
    'Turhan, Gunasekaran 2002, J. Food Eng. 52, 1 (abstract): the final degree goes by temperature',
  ),
  beta_ref: parameter([10, 10, 10], 'K/min', 'choice', ''),
} as const

/** Where starch swells among so much sugar, °C. */
export function swellsAt(starch: Starch, sugar_pct: number, dT: number): number {
  return Math.min(LATEST_C, swelling_C[starch] + 0.1 * sugar_pct + 0.008 * sugar_pct ** 2 + dT)
}

/** How a starch swells on heating: where, at which activation energy, over which width, K, at which K/min. */
export interface Swelling {
  readonly swells_C: number
  readonly Ea: number
  readonly width: number
  readonly beta_ref: number
}

const rates = new WeakMap<Swelling, (T_C: number) => number>()

/** Its rate, 1/s; made once a law. */
function rateOf(law: Swelling): (T_C: number) => number {
  const { swells_C, Ea, beta_ref } = law
  const made =
    rates.get(law) ?? arrhenius(((beta_ref / 60) * Ea) / (GAS_CONSTANT * (swells_C + 273.15) ** 2), swells_C, Ea)
  rates.set(law, made)
  return made
}

/**
 * Moves a swollen share along a piece: what can swell at a temperature does so at first order.
 * @returns the share afterwards
 */
export function swell(share: number, from_C: number, to_C: number, dt: number, law: Swelling): number {
  const { swells_C, width } = law
  // Too cool for more than has swollen already.
  if (clamp((Math.max(from_C, to_C) - (swells_C - width)) / width, 0, 1) <= share) return share
  const rate = rateOf(law)
  let now = share
  byTemperature(from_C, to_C, dt, WIDEST_K, (T_C, part) => {
    const can = clamp((T_C - (swells_C - width)) / width, 0, 1)
    if (can > now) now = can - (can - now) * Math.exp(-rate(T_C) * part)
  })
  return now
}

/** Starch of sugared batters: the more sugar, the hotter it swells. */
export const batterStarch = defineLaw({
  id: 'batter-starch',
  title: 'starch of a sugared batter',
  inputs: z
    .strictObject({
      by: z.literal('batter-starch'),
      sugar_pct: z
        .number()
        .min(0)
        .max(70)
        .meta({ description: 'Sugar in 100 g of sugar and water of the whole recipe, g.' }),
      starch: z.enum(starches).meta({ description: 'Kind of starch; wheat if left out.' }).exactOptional(),
    })
    .meta({ title: 'Starch of a sugared batter' }),
  parameters: starchParameters,
  source:
    'shift by sugar fitted to Bean and Yamazaki 1978 and Spies and Hoseney 1982 (Cereal Chem. 55, 936; 59, 128; abstracts seen, figures from memory)',
  weak: 'the shift by sugar is a fitted curve, good to 4 K',
  make({ sugar_pct, starch = 'wheat' }, { dT, ...rest }) {
    const law = { swells_C: swellsAt(starch, sugar_pct, dT), ...rest }
    return {
      names: ['swollen'],
      start: () => [0],
      advance(values, from_C, to_C, dt) {
        values[0] = swell(values[0]!, from_C, to_C, dt, law)
      },
      extent: (values) => values[0]!,
      criteria: {
        set: reached(SET),
        firm: reachedCold(SET, FIRM_C),
        cut: reachedCold(SET, SLICE_C),
      },
    }
  },
})
