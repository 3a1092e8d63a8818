import type { FaceCondition } from '../../src/core/boundary/face.ts'
import { findSurroundings } from '../../src/core/boundary/surroundings.ts'
import type { Body } from '../../src/core/geometry/body.ts'
import { blockBody } from '../../src/core/geometry/shapes/block.ts'
import type { Job } from '../../src/core/journey/job.ts'
import { getMaterial } from '../../src/core/materials/index.ts'
import type { Material } from '../../src/core/materials/material.ts'
import { materialFromPlan } from '../../src/core/materials/material-from-plan.ts'
import { oven } from '../physics/baking-jobs.ts'
import { jobOf, stage } from '../physics/jobs.ts'

/* Cakes of the literature as jobs; what was not published is assumed, and said. */

/** A piece in one of the built-in ovens at an air temperature, film coefficients as the surroundings' data have them. */
export function baked(
  body: Body,
  material: Material,
  height: number,
  start_C: number,
  h: number,
  how: { readonly air_C: number; readonly in?: string; readonly film?: 'low' | 'typical' | 'high' },
): Job {
  const { faces } = findSurroundings(how.in ?? 'oven-static')!
  const film = how.film ?? 'typical'
  const of = (side: keyof typeof faces): FaceCondition => oven(faces[side].h_W_m2K[film], how.air_C)
  const except = body.faces.bottom === undefined ? {} : { top: of('top'), bottom: of('bottom') }
  return jobOf(body, material, height, start_C, [stage(body, of('sides'), h, except)])
}

/**
 * 300 g of pound cake. Journal of Home Economics of Japan 25 (1974) 38 (abstract seen) does not give the tin: a small one
 * of 65 × 150 mm is taken.
 */
export function poundCake(air_C: number): Job {
  const batter = getMaterial('pound-batter')
  const depth = 0.3 / batter.density / (0.065 * 0.15)
  return baked(blockBody({ width: 0.065, length: 0.15 }), batter, depth, 20, 1.2, { air_C })
}

const line = (ingredient: string, mass_kg: number) => ({ ingredient, mass_kg })

/** Rich fruit cake by an ordinary recipe (proportions from memory); nothing is fitted. */
export const fruitCake = materialFromPlan(
  'fruit-cake',
  {
    recipe: [
      line('butter', 0.175),
      line('sugar-brown', 0.175),
      line('egg-whole', 0.2),
      line('wheat-flour-plain', 0.225),
      line('raisins', 0.7),
    ],
    air_pct: 8,
    rises_to: 1.15,
  },
  'materials.fruit-cake',
)
