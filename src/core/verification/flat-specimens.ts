import type { Layer } from '../geometry/layer.ts'
import { sheetBody } from '../geometry/shapes/sheet.ts'
import type { CasePosition } from './case-schema.ts'
import { NotApplicable } from './not-applicable.ts'
import { coordinate, layer, MIDDLE, material, need, type Recipe, type Specimen, size } from './specimen.ts'

/* Bodies that change along one straight direction: slabs, layered slabs, half-spaces, all as sheets. */

/** Courses of a half-space, each twice as thick as the one towards the exposed face. */
const COURSES = 5
/** Courses of equal thickness in the part of a half-space that a front crosses; beyond it they thicken more slowly. */
const NEAR_COURSES = 32
const FAR_GROWTH = 1.5

/** A stack of layers as a sheet; `at` turns the case's coordinate into metres above the bottom. */
function sheetSpecimen(
  fill: readonly Layer[],
  faces: Specimen['faces'],
  depth: number,
  at: (position: CasePosition) => number,
): Specimen {
  const height = fill.reduce((sum, { thickness }) => sum + (thickness ?? 0), 0)
  return {
    body: sheetBody({ area: 1 }),
    lining: [],
    fill,
    faces,
    area: { top: 1, bottom: 1 },
    volume: height,
    depth,
    thickness: height,
    place: (position) => ({ ...MIDDLE, y: at(position) / height }),
  }
}

export function slab(recipe: Recipe): Specimen {
  const { geometry, choice, start } = recipe
  if (geometry.half_thickness_m !== undefined || geometry.symmetric === true) {
    const half = size(geometry.half_thickness_m, choice.size, 'half_thickness_m')
    const fill = [layer('fill[0]', material(recipe), 2 * half, start(0))]
    const both = ['top', 'bottom']
    return sheetSpecimen(fill, { surface: both, all: both }, half, (p) => half + coordinate(p, 'x_m'))
  }
  const thickness = size(geometry.thickness_m, choice.size, 'thickness_m')
  const fill = [layer('fill[0]', material(recipe), thickness, start(0))]
  const faces = { x0: ['bottom'], xL: ['top'], all: ['bottom', 'top'] }
  return sheetSpecimen(fill, faces, thickness, (p) => coordinate(p, 'x_m'))
}

export function layeredSlab(recipe: Recipe): Specimen {
  const { geometry, start } = recipe
  const outer = geometry.layers_outer_m
  if (outer !== undefined) {
    const half = outer[outer.length - 1] ?? 0
    const thicknesses = outer.map((to, index) => to - (outer[index - 1] ?? 0))
    const upper = thicknesses.map((thickness, index) => ({ thickness, index }))
    const lower = upper.slice(1).reverse()
    const fill = [...lower, ...upper].map(({ thickness, index }, at) =>
      layer(`fill[${at}]`, material(recipe, index), index === 0 ? 2 * thickness : thickness, start(index)),
    )
    const both = ['top', 'bottom']
    return sheetSpecimen(fill, { surface: both, all: both }, half, (p) => half + coordinate(p, 'x_m'))
  }
  const thicknesses = need(geometry.thickness_m, 'thickness_m')
  if (typeof thicknesses === 'number') throw new NotApplicable('a layered slab needs a list of thicknesses')
  const fill = thicknesses.map((thickness, index) =>
    layer(`fill[${index}]`, material(recipe, index), thickness, start(index)),
  )
  const height = thicknesses.reduce((sum, thickness) => sum + thickness, 0)
  const borders = [0, ...thicknesses.map((_, index) => thicknesses.slice(0, index + 1).reduce((a, b) => a + b, 0))]
  const at = (p: CasePosition): number =>
    p.interface === undefined ? coordinate(p, 'x_m') : need(borders[p.interface], `interface ${p.interface}`)
  return sheetSpecimen(fill, { x0: ['bottom'], xL: ['top'], all: ['bottom', 'top'] }, height, at)
}

/** Thicknesses of the courses of a half-space, from the far end to the exposed face, m. */
function courses(depth: number, near: number | undefined): number[] {
  if (near === undefined || near >= depth)
    return Array.from({ length: COURSES }, (_, index) => (depth * 2 ** (COURSES - 1 - index)) / (2 ** COURSES - 1))
  const thicknesses = Array.from({ length: NEAR_COURSES }, () => near / NEAR_COURSES)
  let left = depth - near
  for (let next = (near / NEAR_COURSES) * FAR_GROWTH; left > 0; next *= FAR_GROWTH) {
    // A last course that would be a sliver is laid with the one before.
    const thickness = left < 2 * next ? left : next
    thicknesses.unshift(thickness)
    left -= thickness
  }
  return thicknesses
}

export function semiInfinite(recipe: Recipe): Specimen {
  const { geometry, choice, start } = recipe
  const depth = choice.depth ?? need(geometry.sufficient_depth_m, 'sufficient_depth_m')
  const fill = courses(depth, choice.near).map((thickness, index) =>
    layer(`fill[${index}]`, material(recipe), thickness, start(0)),
  )
  const faces = { x0: ['top'], surface: ['top'], far: ['bottom'] }
  return sheetSpecimen(fill, faces, depth, (p) => depth - coordinate(p, 'x_m'))
}
