import { airFilm, type FilmShape, type Stream } from '../boundary/film-laws.ts'
import { radiativeFilm } from '../boundary/radiation.ts'
import { stillWaterFilm, stirredWaterFilm } from '../boundary/water.ts'
import { z } from '../zod.ts'
import type { Row } from './report.ts'
import { compared, leftOut } from './vector-row.ts'

/* Film coefficients that are stated for equipment, on a piece of one size, beside what the laws give. */

const ends = ['low', 'typical', 'high'] as const
const estimate = z.looseObject({ low: z.number(), typical: z.number(), high: z.number() })
const films = z.looseObject({ h_conv: z.number(), h_rad: z.number() })
const face = z.looseObject({ low: films, typical: films, high: films })
const preset = z.looseObject({
  id: z.string(),
  fluid: z.string().exactOptional(),
  air_C: estimate,
  air_speed_m_s: estimate.nullable(),
  wall_minus_air_K: z.number(),
  surface_for_this_table_C: z.union([z.number(), estimate]),
  faces: z.record(z.string(), face),
})
export const presetsSchema = z.array(preset)
type Preset = z.infer<typeof preset>

/** The piece that such figures are stated for, m: 0.60 by 0.40 on plan, 0.15 high; a bath's wall is 0.2 high, 0.3 long. */
const shapes: Readonly<Record<string, FilmShape>> = {
  top: { kind: 'up', areaOverPerimeter: 0.12, along: 0.4 },
  sides: { kind: 'upright', height: 0.15, along: 0.4 },
  bottom: { kind: 'down', areaOverPerimeter: 0.12, along: 0.4 },
}
const BATH_HEIGHT = 0.2
const BATH_LENGTH = 0.3

/** What the ends of a band stand for: how rough the air is, and how the surface shines. */
const bands: Readonly<Record<(typeof ends)[number], { readonly stream: Stream; readonly emissivity: number }>> = {
  low: { stream: 'quiet', emissivity: 0.85 },
  typical: { stream: 'fanned', emissivity: 0.9 },
  high: { stream: 'rough', emissivity: 0.95 },
}

/** Stated with one decimal, 0.1 W/(m² K); another digit of leeway for rounding of the inputs, 2 %. */
const tolerance = (expected: number): number => 0.1 + 0.02 * expected

function bathFilm({ air_C, air_speed_m_s, surface_for_this_table_C: surface }: Preset, end: (typeof ends)[number]) {
  const surface_C = typeof surface === 'number' ? surface : surface[end]
  // A stirred bath is stated at its usual temperature throughout; the speed makes its band.
  return air_speed_m_s === null
    ? stillWaterFilm(BATH_HEIGHT, surface_C, air_C.typical)
    : stirredWaterFilm(BATH_LENGTH, air_speed_m_s[end], surface_C, air_C.typical)
}

export function presetRows(given: Preset): Row[] {
  const { id, fluid, air_C, air_speed_m_s, wall_minus_air_K, surface_for_this_table_C: surface, faces } = given
  return Object.entries(faces).flatMap(([name, films]): Row[] =>
    ends.flatMap((end): Row[] => {
      const { h_conv, h_rad } = films[end]
      const row = (output: string, computed: number, expected: number): Row =>
        compared({
          case: `${id}, ${name}, ${end}`,
          output,
          unit: 'W/(m2 K)',
          computed,
          expected,
          tolerance: tolerance(expected),
        })
      if (fluid === 'water') return [row('h_conv', bathFilm(given, end), h_conv)]
      const shape = Object.hasOwn(shapes, name) ? shapes[name] : undefined
      if (shape === undefined || air_speed_m_s === null || typeof surface !== 'number')
        return [leftOut(`${id}, ${name}, ${end}`, 'h_conv', 'no law is known for this face')]
      const { stream, emissivity } = bands[end]
      const [at, air] = [surface, air_C.typical].map((T_C) => ({ T_C, vapour: 0 }))
      if (at === undefined || air === undefined) return []
      const h = airFilm(shape, air_speed_m_s[end], at, air, undefined, stream)
      return [
        row('h_conv', h, h_conv),
        row('h_rad', radiativeFilm(emissivity, surface, air.T_C + wall_minus_air_K), h_rad),
      ]
    }),
  )
}
