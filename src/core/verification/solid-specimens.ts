import { ballBody } from '../geometry/shapes/ball.ts'
import { barBody } from '../geometry/shapes/bar.ts'
import { blockBody } from '../geometry/shapes/block.ts'
import { roundBody } from '../geometry/shapes/round.ts'
import type { CaseGeometry } from './case-schema.ts'
import { NotApplicable } from './not-applicable.ts'
import { coordinate, layer, MIDDLE, material, need, type Recipe, type Specimen } from './specimen.ts'

/* Round and rectangular bodies. */

/** A round whose top and bottom let nothing through, so that it is as good as endless. */
export function cylinderInfinite(recipe: Recipe): Specimen {
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

export function cylinder(recipe: Recipe): Specimen {
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

export function sphere(recipe: Recipe): Specimen {
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

export function rectangularBar(recipe: Recipe): Specimen {
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
export function box(recipe: Recipe): Specimen {
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
