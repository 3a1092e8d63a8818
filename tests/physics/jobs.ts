import type { FaceCondition } from '../../src/core/boundary/face.ts'
import { steady } from '../../src/core/boundary/profile.ts'
import { type Body, elementaryFaces } from '../../src/core/geometry/body.ts'
import { ballBody } from '../../src/core/geometry/shapes/ball.ts'
import { barBody } from '../../src/core/geometry/shapes/bar.ts'
import { blockBody } from '../../src/core/geometry/shapes/block.ts'
import { roundBody } from '../../src/core/geometry/shapes/round.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import { shellBody } from '../../src/core/geometry/shapes/shell.ts'
import { tiersBody } from '../../src/core/geometry/shapes/tiers.ts'
import type { Course } from '../../src/core/journey/course.ts'
import type { Job, Stage } from '../../src/core/journey/job.ts'
import { crossings, runs, smooth } from '../../src/core/journey/series.ts'
import { analyticMaterial } from '../../src/core/materials/analytic.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import type { Material } from '../../src/core/materials/material.ts'

/** Small builders of jobs for the physics tests: no plan, no names, straight to the core. */

export const hours = (h: number): number => h * 3600

export const air = (h: number, air_C: number): FaceCondition => ({
  kind: 'convective',
  h,
  air_C: steady(air_C),
  resistances: [],
})
export const held = (surface_C: number): FaceCondition => ({ kind: 'fixed', surface_C: steady(surface_C) })
export const insulated: FaceCondition = { kind: 'insulated' }

export function everywhere(body: Body, condition: FaceCondition): Record<string, FaceCondition> {
  return Object.fromEntries(elementaryFaces(body).map((face) => [face, condition]))
}

export function stage(
  body: Body,
  condition: FaceCondition,
  h: number,
  except: Record<string, FaceCondition> = {},
): Stage {
  return {
    name: 'stage',
    start: [],
    faces: { ...everywhere(body, condition), ...except },
    air_C: condition.kind === 'convective' ? condition.air_C : steady(0),
    until: { after: hours(h), max: hours(1e4) },
  }
}

export function jobOf(body: Body, material: Material, thickness: number | null, start_C: number, stages: Stage[]): Job {
  return { body, lining: [], fill: [{ name: 'fill[0]', material, thickness, start_C }], stages, probes: [] }
}

/** Every shape at a hand's size, with the height that its fill needs. */
export const everyShape: readonly { readonly name: string; readonly body: Body; readonly height: number | null }[] = [
  { name: 'sheet', body: sheetBody({}), height: 0.1 },
  { name: 'bar', body: barBody({ width: 0.18, length: 1 }), height: 0.12 },
  { name: 'block', body: blockBody({ width: 0.2, length: 0.3 }), height: 0.12 },
  { name: 'round', body: roundBody({ diameter: 0.24 }), height: 0.12 },
  { name: 'ball', body: ballBody({ diameter: 0.16 }), height: null },
  { name: 'hollow ball', body: shellBody({ diameter: 0.2, hollow: 0.08 }), height: null },
  { name: 'tiers', body: tiersBody([{ diameter: 0.24, height: 0.06 }, { diameter: 0.14 }]), height: 0.12 },
]

export const cream = fixedMaterial({ id: 'cream', title: 'Cream', k: 0.48, rho: 1050, c: 3500 })

/** Model custard of the reference slab: freezing from −2 °C, ice = 0.63 (1 + 2/T). */
export const freezingCustard = ((): Material => {
  const ice = (T_C: number): number => (T_C < -2 ? 0.63 * (1 + 2 / T_C) : 0)
  return analyticMaterial({
    id: 'custard',
    title: 'Custard',
    density: 1080,
    k: (T_C) => 0.5 + (0.9 * ice(T_C)) / 0.63,
    storage: {
      kind: 'enthalpy',
      enthalpy: (T_C) => 1080 * (T_C >= -2 ? 3300 * (T_C + 2) : 1900 * (T_C + 2) - 333600 * ice(T_C)),
    },
    corners_C: [-2],
  })
})()

/** Water that boils off at 100 °C: a fifth of the mass. */
export const boilingBatter = analyticMaterial({
  id: 'batter',
  title: 'Batter',
  density: 600,
  k: (T_C) => (T_C < 100 ? 0.3 : 0.12),
  storage: { kind: 'capacity', rho_c: () => 600 * 2700 },
  corners_C: [100],
  jumps: [{ T_C: 100, latent: 600 * 0.2 * 2.257e6 }],
})

/** Temperature of a followed place at a moment. */
export function read(course: Course, values: Float64Array, h: number): number {
  const at = hours(h)
  const run = runs(course.t).find(({ first, last }) => course.t[first]! <= at && at <= course.t[last]!)!
  return smooth(course.t, values, run.first, run.last)(at)
}

/** Hours at which a curve first passes a temperature. */
export function passes(course: Course, values: Float64Array, T_C: number): number {
  return (crossings(course.t, values, T_C)[0]?.at ?? Number.NaN) / 3600
}
