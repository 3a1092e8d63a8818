import type { Material } from '../materials/material.ts'
import type { Case } from './case-schema.ts'
import { layeredSlab, semiInfinite, slab } from './flat-specimens.ts'
import { cylinderShell, trough } from './half-round-specimens.ts'
import { NotApplicable } from './not-applicable.ts'
import { box, cylinder, cylinderInfinite, rectangularBar, sphere } from './solid-specimens.ts'
import type { BodyChoice, Recipe, Specimen, StartOf } from './specimen.ts'

const SHAPES: Readonly<Record<string, (recipe: Recipe) => Specimen>> = {
  slab,
  layered_slab: layeredSlab,
  semi_infinite: semiInfinite,
  cylinder_infinite: cylinderInfinite,
  layered_cylinder_infinite: cylinderInfinite,
  cylinder,
  sphere,
  rectangular_bar: rectangularBar,
  box,
  half_cylinder_trough: trough,
  layered_cylinder_shell: cylinderShell,
}

/** Shapes of the format that the core has no body for, each with the reason. */
const MISSING: Readonly<Record<string, string>> = {
  table: 'a table of series coefficients: the core solves the whole field and has none',
  any: 'the case gives no size',
  'see title': 'a band of trade practice without size, material or surroundings',
}

/** Whether the core has a body for this shape, and if not, why. */
export function missingShape(shape: string): string | undefined {
  if (Object.hasOwn(SHAPES, shape)) return undefined
  return Object.hasOwn(MISSING, shape) ? MISSING[shape] : `the shape "${shape}" is not one that the core has`
}

/** How many sizes a case lists. */
export function sizesOf(entry: Case): number {
  const { half_thickness_m: half } = entry.geometry
  return Array.isArray(half) ? half.length : 1
}

/**
 * The body of a case.
 * Throws `NotApplicable` where the core has no such shape or the case leaves a size out.
 */
export function buildSpecimen(
  entry: Case,
  materials: readonly Material[],
  start: StartOf,
  choice: BodyChoice,
): Specimen {
  const missing = missingShape(entry.geometry.shape)
  const build = SHAPES[entry.geometry.shape]
  if (missing !== undefined || build === undefined) throw new NotApplicable(missing ?? 'the core has no such shape')
  return build({ geometry: entry.geometry, choice, materials, start })
}
