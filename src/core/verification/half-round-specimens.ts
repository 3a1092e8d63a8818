import { ringBody } from '../geometry/shapes/ring.ts'
import { troughBody, wholeTrough } from '../geometry/shapes/trough.ts'
import { NotApplicable } from './not-applicable.ts'
import { coordinate, layer, MIDDLE, material, need, type Recipe, type Specimen } from './specimen.ts'

/* Half-round troughs and hollow cylinders. */

/** A trough; without a length it is as good as endless. Angles count from the flat face, 90° is straight down. */
export function trough(recipe: Recipe): Specimen {
  const { geometry } = recipe
  const radius = need(geometry.radius_m, 'radius_m')
  const { length_m } = geometry
  const length = length_m ?? 10 * radius
  const faces = { flat: ['top'], arc: ['curved'] }
  const section = (Math.PI / 2) * radius * radius
  return {
    body: length_m === undefined ? troughBody({ radius, length }) : wholeTrough({ radius, length }),
    lining: [],
    fill: [layer('fill[0]', material(recipe), null, recipe.start(0))],
    faces:
      length_m === undefined
        ? { ...faces, all: ['top', 'curved'] }
        : { ...faces, ends: ['front', 'back'], all: ['top', 'curved', 'front', 'back'] },
    area: { top: 2 * radius * length, curved: Math.PI * radius * length, front: section, back: section },
    volume: section * length,
    depth: radius,
    thickness: radius,
    place(p) {
      const r = coordinate(p, 'r_m')
      const angle = (need(p.phi_deg, 'coordinate phi_deg of the place') * Math.PI) / 180
      return {
        x: 0.5 + (0.5 * r * Math.cos(angle)) / radius,
        y: 1 - (r * Math.sin(angle)) / radius,
        z: 0.5 + (p.z_m ?? 0) / length,
      }
    },
  }
}

/** A pipe of one or two layers, whose top and bottom let nothing through. */
export function cylinderShell(recipe: Recipe): Specimen {
  const { geometry, start } = recipe
  const radii = need(geometry.radii_m, 'radii_m')
  const [inner, between, outer = between] = radii
  if (inner === undefined || between === undefined || outer === undefined || radii.length > 3)
    throw new NotApplicable('a hollow cylinder needs two or three radii')
  const height = 2 * outer
  const body = ringBody({ outer: 2 * outer, inner: 2 * inner })
  return {
    // A sleeve on the outside alone.
    body: { ...body, axes: body.axes.map((axis) => ({ ...axis, linedLow: false })) },
    lining: radii.length === 2 ? [] : [layer('lining[0]', material(recipe, 1), outer - between, start(1))],
    fill: [layer('fill[0]', material(recipe), height, start(0))],
    faces: { r_in: ['inner'], r_out: ['sides'] },
    area: { inner: 2 * Math.PI * inner * height, sides: 2 * Math.PI * outer * height },
    volume: Math.PI * (outer * outer - inner * inner) * height,
    depth: outer - inner,
    length: height,
    thickness: outer - inner,
    place: (p) => ({ ...MIDDLE, x: 0.5 + (0.5 * coordinate(p, 'r_m')) / outer }),
  }
}
