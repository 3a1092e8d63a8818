import type { FaceCondition } from '../boundary/face.ts'
import { type Profile, steady, straight } from '../boundary/profile.ts'
import type { Body, FaceName } from '../geometry/body.ts'
import { fromHours } from '../units.ts'
import type { Exchange } from './exchange.ts'
import type { PlanCourse } from './schema.ts'
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

/** The condition at a face: its exchange with the surroundings through what lies on it, inside out. */
export function conditionOf(body: Body, face: FaceName, exchange: Exchange, sheets: readonly Sheet[]): FaceCondition {
  const { resistances, spread } = sheathe(body, face, sheets)
  switch (exchange.kind) {
    case 'surface': {
      const surface_C = profileOf(exchange.surface_C)
      if (sheets.length === 0) return { kind: 'fixed', surface_C }
      return { kind: 'convective', h: HELD, air_C: surface_C, resistances }
    }
    case 'air': {
      const { h_W_m2K, radiation } = exchange
      if (h_W_m2K === 0 && radiation === undefined) return { kind: 'insulated' }
      const outermost = sheets.at(-1)?.wall.emissivity
      return {
        kind: 'convective',
        h: h_W_m2K * spread,
        air_C: profileOf(exchange.air_C),
        resistances,
        ...(radiation === undefined
          ? {}
          : {
              radiation: {
                // What lies on the face shines in place of the food.
                emissivity: (outermost ?? radiation.emissivity) * spread,
                walls_C: profileOf(radiation.walls_C, radiation.shift_K),
              },
            }),
      }
    }
    case 'incomplete':
      throw new Error(`${exchange.missing.join(', ')} missing for ${face}: the plan was not checked`)
  }
}
