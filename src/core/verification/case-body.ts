import type { Body, FaceName, Place } from '../geometry/body.ts'
import type { Layer } from '../geometry/layer.ts'
import { ballBody } from '../geometry/shapes/ball.ts'
import { barBody } from '../geometry/shapes/bar.ts'
import { blockBody } from '../geometry/shapes/block.ts'
import { roundBody } from '../geometry/shapes/round.ts'
import { sheetBody } from '../geometry/shapes/sheet.ts'
import type { Material } from '../materials/material.ts'
import type { Case, CaseGeometry, CasePosition } from './case-schema.ts'
import { NotApplicable } from './not-applicable.ts'

/** A case's body as a piece of ours, with the case's own names for faces and places turned into the piece's. */
export interface Specimen {
  readonly body: Body
  readonly lining: readonly Layer[]
  readonly fill: readonly Layer[]
  /** Elementary faces behind each face name of the case. A face in none of them is a plane of symmetry. */
  readonly faces: Readonly<Record<string, readonly FaceName[]>>
  /** m² of the whole piece, by elementary face; what fluxes are referred to. */
  readonly area: Readonly<Record<FaceName, number>>
  /** m³ of the whole piece. */
  readonly volume: number
  /** Half of the thickness, radius, or depth: the way from the exposed face to the innermost place, m. */
  readonly depth: number
  /** Smallest thickness or diameter, for an estimate of how long things take, m. */
  readonly thickness: number
  place(position: CasePosition): Place
}

/** What a case leaves open and a run settles. */
export interface BodyChoice {
  /** Index into a list of sizes. */
  readonly size: number
  /** Depth that stands for infinity, m; the case's own when left out. */
  readonly depth?: number
  /** Part of a half-space that a front crosses, m; laid in thin courses, since temperature steps as a front passes. */
  readonly near?: number
}

/** Temperature at the start of one layer, by its index from the centre or from x0 outwards. */
export type StartOf = (layer: number) => number

const MIDDLE: Place = { x: 0.5, y: 0.5, z: 0.5 }
/** Courses of a half-space, each twice as thick as the one towards the exposed face. */
const COURSES = 5
/** Courses of equal thickness in the part of a half-space that a front crosses; beyond it they thicken more slowly. */
const NEAR_COURSES = 32
const FAR_GROWTH = 1.5

interface Recipe {
  readonly geometry: CaseGeometry
  readonly choice: BodyChoice
  readonly materials: readonly Material[]
  readonly start: StartOf
}

const layer = (name: string, material: Material, thickness: number | null, start_C: number): Layer => ({
  name,
  material,
  thickness,
  start_C,
})

function need<T>(value: T | undefined, what: string): T {
  if (value === undefined) throw new NotApplicable(`the case gives no ${what}`)
  return value
}

function material(recipe: Recipe, index = 0): Material {
  return need(recipe.materials[index], `material for layer ${index + 1}`)
}

function size(value: number | readonly number[] | undefined, choice: number, what: string): number {
  const given = need(value, what)
  return typeof given === 'number' ? given : need(given[choice], `${what} number ${choice + 1}`)
}

function coordinate(position: CasePosition, key: 'x_m' | 'y_m' | 'z_m' | 'r_m'): number {
  return need(position[key], `coordinate ${key} of the place`)
}

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

function slab(recipe: Recipe): Specimen {
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

function layeredSlab(recipe: Recipe): Specimen {
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

function semiInfinite(recipe: Recipe): Specimen {
  const { geometry, choice, start } = recipe
  const depth = choice.depth ?? need(geometry.sufficient_depth_m, 'sufficient_depth_m')
  const fill = courses(depth, choice.near).map((thickness, index) =>
    layer(`fill[${index}]`, material(recipe), thickness, start(0)),
  )
  const faces = { x0: ['top'], surface: ['top'], far: ['bottom'] }
  return sheetSpecimen(fill, faces, depth, (p) => depth - coordinate(p, 'x_m'))
}

/** A round whose top and bottom let nothing through, so that it is as good as endless. */
function cylinderInfinite(recipe: Recipe): Specimen {
  const { geometry, start } = recipe
  const outer = geometry.layers_outer_m ?? [need(geometry.radius_m, 'radius_m')]
  const radius = outer[outer.length - 1] ?? 0
  const inner = outer[0] ?? radius
  const height = 2 * radius
  const body = roundBody({ diameter: 2 * radius })
  const lining = outer
    .slice(1)
    .map((to, index) =>
      layer(`lining[${index}]`, material(recipe, index + 1), to - (outer[index] ?? 0), start(index + 1)),
    )
    .reverse()
  return {
    // The lining of a round goes under it as well; a sleeve does not.
    body: { ...body, axes: body.axes.map((axis) => (axis.carries === 'y' ? { ...axis, linedLow: false } : axis)) },
    lining,
    fill: [layer('fill[0]', material(recipe), height, start(0))],
    faces: { surface: ['sides'], side: ['sides'], all: ['sides'] },
    area: { sides: 2 * Math.PI * radius * height },
    volume: Math.PI * radius * radius * height,
    depth: radius,
    thickness: 2 * inner,
    place: (p) => ({ ...MIDDLE, x: 0.5 + (0.5 * coordinate(p, 'r_m')) / radius }),
  }
}

function cylinder(recipe: Recipe): Specimen {
  const { geometry, start } = recipe
  const radius = need(geometry.radius_m, 'radius_m')
  const height = need(geometry.height_m, 'height_m')
  return {
    body: roundBody({ diameter: 2 * radius }),
    lining: [],
    fill: [layer('fill[0]', material(recipe), height, start(0))],
    faces: {
      side: ['sides'],
      ends: ['top', 'bottom'],
      top: ['top'],
      bottom: ['bottom'],
      all: ['sides', 'top', 'bottom'],
    },
    area: { sides: 2 * Math.PI * radius * height, top: Math.PI * radius ** 2, bottom: Math.PI * radius ** 2 },
    volume: Math.PI * radius * radius * height,
    depth: radius,
    thickness: Math.min(2 * radius, height),
    place: (p) => {
      if (p.r_m === undefined && p.name === 'centre') return MIDDLE
      return { ...MIDDLE, x: 0.5 + (0.5 * coordinate(p, 'r_m')) / radius, y: 0.5 + (p.z_m ?? 0) / height }
    },
  }
}

function sphere(recipe: Recipe): Specimen {
  const radius = need(recipe.geometry.radius_m, 'radius_m')
  return {
    body: ballBody({ diameter: 2 * radius }),
    lining: [],
    fill: [layer('fill[0]', material(recipe), null, recipe.start(0))],
    faces: { surface: ['curved'], all: ['curved'] },
    area: { curved: 4 * Math.PI * radius * radius },
    volume: (4 / 3) * Math.PI * radius ** 3,
    depth: radius,
    thickness: 2 * radius,
    place: (p) => ({ ...MIDDLE, x: 0.5 + (0.5 * coordinate(p, 'r_m')) / radius }),
  }
}

/** Share of the bounding box for a coordinate counted from the centre or from the corner. */
function share(geometry: CaseGeometry, value: number | undefined, length: number, what: string): number {
  const from = geometry.origin ?? 'centre'
  const at = need(value, `coordinate ${what} of the place`) / length
  if (from.includes('corner')) return at
  if (from.includes('centre')) return 0.5 + at
  throw new NotApplicable(`the origin "${from}" is not known; centre and corner are`)
}

function rectangularBar(recipe: Recipe): Specimen {
  const { geometry } = recipe
  const [width, height] = need(geometry.size_m, 'size_m')
  if (width === undefined || height === undefined) throw new NotApplicable('a bar needs two sizes')
  const length = 10 * Math.max(width, height)
  return {
    body: barBody({ width, length }),
    lining: [],
    fill: [layer('fill[0]', material(recipe), height, recipe.start(0))],
    faces: { x0: ['left'], xL: ['right'], y0: ['bottom'], yL: ['top'], all: ['left', 'right', 'bottom', 'top'] },
    area: { left: height * length, right: height * length, bottom: width * length, top: width * length },
    volume: width * height * length,
    depth: Math.min(width, height) / 2,
    thickness: Math.min(width, height),
    place: (p) => ({
      x: share(geometry, p.x_m, width, 'x_m'),
      y: share(geometry, p.y_m, height, 'y_m'),
      z: 0.5,
    }),
  }
}

/** The case's x lies along the block, its y across, its z upright. */
function box(recipe: Recipe): Specimen {
  const { geometry } = recipe
  const [length, width, height] = need(geometry.size_m, 'size_m')
  if (length === undefined || width === undefined || height === undefined)
    throw new NotApplicable('a box needs three sizes')
  return {
    body: blockBody({ width, length }),
    lining: [],
    fill: [layer('fill[0]', material(recipe), height, recipe.start(0))],
    faces: {
      x0: ['front'],
      xL: ['back'],
      y0: ['left'],
      yL: ['right'],
      z0: ['bottom'],
      zL: ['top'],
      all: ['front', 'back', 'left', 'right', 'bottom', 'top'],
    },
    area: {
      front: width * height,
      back: width * height,
      left: length * height,
      right: length * height,
      bottom: length * width,
      top: length * width,
    },
    volume: length * width * height,
    depth: Math.min(width, height, length) / 2,
    thickness: Math.min(width, height, length),
    place: (p) => {
      if (p.x_m === undefined && p.name === 'centre') return MIDDLE
      return {
        x: share(geometry, p.y_m, width, 'y_m'),
        y: share(geometry, p.z_m, height, 'z_m'),
        z: share(geometry, p.x_m, length, 'x_m'),
      }
    },
  }
}

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
}

/** Shapes of the format that the core has no body for, each with the reason. */
const MISSING: Readonly<Record<string, string>> = {
  half_cylinder_trough: 'the core has no half-round trough yet',
  layered_cylinder_shell: 'the core has no hollow cylinder yet',
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
