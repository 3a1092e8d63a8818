import type { Film } from '../boundary/ambient.ts'
import type { FaceCondition } from '../boundary/face.ts'
import { faceShape } from '../boundary/face-shape.ts'
import { airFilm } from '../boundary/film-laws.ts'
import { type Profile, steady, straight } from '../boundary/profile.ts'
import type { Side } from '../boundary/surroundings.ts'
import { stillWaterFilm, stirredWaterFilm } from '../boundary/water.ts'
import type { Body, FaceName } from '../geometry/body.ts'
import { fromHours } from '../units.ts'
import type { Exchange } from './exchange.ts'
import type { PlanCourse } from './schema/plan.ts'
import { type Sheet, sheathe } from './sheath.ts'

/** Film outside a mould that is held at a temperature: as good as none, W/(m² K). */
const HELD = 1e5

/** A course of the plan (hours of the stage, °C) as a profile (seconds), everywhere warmer by `shift_K`. */
export function profileOf(course: PlanCourse, shift_K = 0): Profile {
  if (typeof course === 'number') return steady(course + shift_K)
  const first = course[0]
  if (course.length === 1 && first !== undefined) return steady(first[1] + shift_K)
  return straight(
    course.map(([hour]) => fromHours(hour)),
    course.map(([, T_C]) => T_C + shift_K),
  )
}

/** Where a face is on the piece as it lies, and how high the piece is, m. */
export interface FacePlace {
  readonly side: Side
  readonly height: number
  /** Whether it lies on the wires of a rack. */
  readonly rack?: boolean
}

/** Share of an underside that the wires of a rack leave free. Source: 10 to 15 % are covered (from memory). */
const RACK_FREE = 0.88

type Law = Extract<Exchange, { kind: 'law' }>

/** The film law of a face; the key tells faces of one film. */
function filmOf(lying: Body, face: FaceName, { fluid, speed_m_s, h_W_m2K }: Law, { side, height, rack }: FacePlace) {
  if (h_W_m2K !== undefined) return { film: () => h_W_m2K, key: `h ${h_W_m2K}` }
  const shape = faceShape(lying, face, side, height)
  const free = rack === true ? RACK_FREE : 1
  const key = JSON.stringify([fluid, speed_m_s, shape, free])
  if (fluid === 'air')
    return { film: (...[surface, air]: Parameters<Film>) => free * airFilm(shape, speed_m_s, surface, air), key }
  const along = shape.kind === 'cylinder' || shape.kind === 'ball' ? shape.diameter : shape.along
  const film: Film = (surface, bath) => {
    const still = stillWaterFilm(height, surface.T_C, bath.T_C)
    return speed_m_s > 0 ? Math.max(still, stirredWaterFilm(along, speed_m_s, surface.T_C, bath.T_C)) : still
  }
  return { film, key }
}

/** A film that is given, as a law: nothing that lies in its way knows the difference. */
const givenLaw = (h: number) => ({ kind: 'law', film: () => h, key: `h ${h}`, open: false }) as const

/**
 * The condition at a face: its exchange with the surroundings through what lies on it, inside out.
 * @param body  as it lies
 */
export function conditionOf(
  body: Body,
  face: FaceName,
  exchange: Exchange,
  sheets: readonly Sheet[],
  place: FacePlace,
): FaceCondition {
  const { resistances, spread, held } = sheathe(body, face, sheets)
  const holding = held === undefined ? {} : { held }
  /** A film of the plan's own follows the temperatures all the same where what lies on the face does. */
  const follows = held !== undefined || sheets.some(({ gap }) => gap !== undefined)
  const last = sheets.at(-1)
  const outermost = last?.emissivity ?? last?.wall.emissivity
  switch (exchange.kind) {
    case 'surface': {
      const surface_C = profileOf(exchange.surface_C)
      if (sheets.length === 0) return { kind: 'fixed', surface_C }
      const ambient = { air_C: surface_C, walls_C: surface_C }
      if (follows) return { ...givenLaw(HELD), ambient, resistances, ...holding, spread, emissivity: 0 }
      return { kind: 'convective', h: HELD, air_C: surface_C, resistances }
    }
    case 'air': {
      const { h_W_m2K, radiation } = exchange
      if (h_W_m2K === 0 && radiation === undefined && held === undefined) return { kind: 'insulated' }
      if (follows) {
        const air_C = profileOf(exchange.air_C)
        const walls_C = radiation === undefined ? air_C : profileOf(radiation.walls_C, radiation.shift_K)
        return {
          ...givenLaw(h_W_m2K),
          ambient: { air_C, walls_C },
          resistances,
          ...holding,
          spread,
          emissivity:
            radiation === undefined ? 0 : radiation.told ? radiation.emissivity : (outermost ?? radiation.emissivity),
        }
      }
      return {
        kind: 'convective',
        h: h_W_m2K * spread,
        air_C: profileOf(exchange.air_C),
        resistances,
        ...(radiation === undefined
          ? {}
          : {
              radiation: {
                // What lies on the face shines in place of the food, unless the plan tells how.
                emissivity: (radiation.told ? radiation.emissivity : (outermost ?? radiation.emissivity)) * spread,
                walls_C: profileOf(radiation.walls_C, radiation.shift_K),
              },
            }),
      }
    }
    case 'law': {
      const { ambient, emissivity, humidity, fluid } = exchange
      return {
        kind: 'law',
        ...filmOf(body, face, exchange, place),
        ...(ambient === undefined
          ? {}
          : {
              ambient: {
                air_C: profileOf(ambient.air_C),
                walls_C: profileOf(ambient.walls_C, ambient.shift_K),
                ...(humidity === undefined ? {} : { humidity }),
              },
            }),
        resistances,
        ...holding,
        spread,
        emissivity: emissivity === 0 || exchange.told === true ? emissivity : (outermost ?? emissivity),
        open: sheets.length === 0 && fluid === 'air' && exchange.contact !== true,
        ...(exchange.contact === true ? { contact: true as const } : {}),
      }
    }
    case 'incomplete':
      throw new Error(`${exchange.missing.join(', ')} missing for ${face}: the plan was not checked`)
  }
}
