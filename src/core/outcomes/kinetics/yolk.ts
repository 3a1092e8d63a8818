import { z } from '../../zod.ts'
import { meanArrhenius } from './arrhenius.ts'
import { defineLaw, parameter, reached } from './law.ts'
import { byLevels } from './pieces.ts'

/** Minutes at 63 °C, or their equal, until yolk has a texture. Source: times read off Vega and Mercade-Prieto 2011, fig. 8, blog.khymos.org (seen). */
const textures_min = { 'condensed-milk': 40, mayonnaise: 60, honey: 75, icing: 110, 'stiff-paste': 155 } as const
const names = ['condensed-milk', 'mayonnaise', 'honey', 'icing', 'stiff-paste'] as const

/** Yolk alone: texture by an equivalent time at 63 °C. */
export const yolk = defineLaw({
  id: 'yolk',
  title: 'yolk',
  inputs: z
    .strictObject({ by: z.literal('yolk'), texture: z.enum(names).meta({ description: 'What it is to be like.' }) })
    .meta({ title: 'Yolk alone' }),
  parameters: {
    factor: parameter([0.75, 1, 1.33], '', 'choice', ''),
    T_ref: parameter([63, 63, 63], 'degC', 'seen in the source', 'blog.khymos.org 2011/04/23'),
    Ea: parameter(
      [470_000, 470_000, 470_000],
      'J/mol',
      'seen in the source',
      'Vega, Mercade-Prieto 2011, Food Biophysics 6, 152 (abstract)',
    ),
    T_cap: parameter(
      [75, 75, 75],
      'degC',
      'seen in the source',
      'X-ray study of heated yolk, PMID 37696830 (abstract): hotter is no faster',
    ),
  },
  source: 'Vega, Mercade-Prieto 2011, Food Biophysics 6, 152 (abstract), textures as read off its figure 8',
  weak: 'measured on plain yolk',
  make({ texture }, { factor, T_ref, Ea, T_cap }) {
    const rate = meanArrhenius(factor / 60, T_ref, Ea, [0, T_cap])
    const asked = textures_min[texture]
    return {
      names: ['minutes'],
      start: () => [0],
      advance(values, from_C, to_C, dt) {
        byLevels(from_C, to_C, dt, [0, T_cap], (from, to, part) => {
          values[0] = values[0]! + rate.over(from, to) * part
        })
      },
      extent: (values) => Math.min(1, values[0]! / asked),
      criteria: { set: reached(asked) },
    }
  },
})
