import type { SectionFrame, SectionGrid } from '../forecast-types.ts'
import { idleEnds, type Mesh, type MeshAxis, NOTHING } from './mesh.ts'

/*
 * The section that is drawn is the one that was computed: cells of the mesh, both halves of a mirrored axis shown, a
 * radius turned to both sides, a ball and a log as rings. Other bodies are cut across in the middle of their length.
 * Drawn x is counted from the middle and y from the bottom of the box to whose shares places refer, as it stands then.
 */

/** Where a piece is cut to be looked at: across its length, along it, or level, each in the middle. */
export type CutPlane = 'across' | 'along' | 'level'

/** Axes of the mesh to the right and upward in the drawing, and the one in whose middle it is cut. */
const planeAxes: Readonly<Record<CutPlane, readonly [number, number, number]>> = {
  across: [0, 1, 2],
  along: [2, 1, 0],
  level: [0, 2, 1],
}

/** A drawn section: its grid, and for each of its cells the mesh cell that it shows. */
export interface Section {
  readonly grid: SectionGrid
  readonly frame: SectionFrame
  /** Where nothing is, the nearest cell of the row. Shape: nu × nv */
  readonly cellOf: Int32Array
}

/** Borders of an axis as drawn, in its own coordinates, and the mesh index of each drawn cell; −1: nothing there. */
interface DrawnAxis {
  readonly borders: readonly number[]
  readonly indices: readonly number[]
}

const GAP = -1

/** Drawn to both sides of `middle`, with a gap between where the cells begin away from it. */
function bothSides(axis: MeshAxis, middle: number): DrawnAxis {
  const outward = Array.from(axis.borders, (border) => border - middle)
  const count = axis.middles.length
  const open = outward[0]! > 1e-9 * outward[count]!
  return {
    borders: [
      ...outward
        .slice(open ? 0 : 1)
        .reverse()
        .map((border) => -border),
      ...outward,
    ],
    indices: [
      ...Array.from({ length: count }, (_, i) => count - 1 - i),
      ...(open ? [GAP] : []),
      ...Array.from({ length: count }, (_, i) => i),
    ],
  }
}

/** An axis as drawn, counted from `origin`. */
function drawn(axis: MeshAxis, origin: number): DrawnAxis {
  if (axis.mirrored) {
    const centre = (axis.from + axis.to) / 2
    const { borders, indices } = bothSides(axis, centre)
    return { borders: borders.map((border) => border + centre - origin), indices }
  }
  return {
    borders: Array.from(axis.borders, (border) => border - origin),
    indices: Array.from(axis.middles, (_, i) => i),
  }
}

/** Width at which a sheet is drawn: its own, but not so wide that its height vanishes. */
function sheetWidth(width: number, height: number): number {
  return Math.min(width, 5 * height)
}

/** Parts of the turn in which rings are drawn. */
const RING_PARTS = 48

/** Cells of the middle of the length: the offset that is added to the index in the section. */
function middleOffset(mesh: Mesh, axis: number): number {
  const along = mesh.axes[axis]
  if (along === undefined) return 0
  const stride = axis === 0 ? 1 : axis === 1 ? mesh.n[0] : mesh.n[0] * mesh.n[1]
  const centre = (along.from + along.to) / 2
  let i = 0
  while (i < along.middles.length - 1 && along.borders[i + 1]! <= centre) i++
  return (along.mirrored ? 0 : i) * stride
}

/** A grid from the places of its nodes and the mesh index of its cells. */
function assemble(
  mesh: Mesh,
  turned: boolean,
  u: DrawnAxis,
  v: DrawnAxis,
  node: (u: number, v: number) => readonly [number, number],
  cell: (u: number, v: number) => number,
  plane: CutPlane = 'across',
): Section {
  const nu = u.indices.length
  const nv = v.indices.length
  const x_m = new Float64Array((nu + 1) * (nv + 1))
  const y_m = new Float64Array((nu + 1) * (nv + 1))
  const layer = new Int16Array(nu * nv)
  const cellOf = new Int32Array(nu * nv)
  const { low, high } = mesh.reference.bounds
  const [sideways, upward] = planeAxes[plane]
  const flipped = plane !== 'level' && turned !== (mesh.body.invertedAtStart === true)
  let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity]
  for (let j = 0; j <= nv; j++) {
    for (let i = 0; i <= nu; i++) {
      const [x, y] = node(u.borders[i]!, v.borders[j]!)
      const up = flipped ? high[1] - y : y - low[upward]!
      x_m[j * (nu + 1) + i] = x
      y_m[j * (nu + 1) + i] = up
      left = Math.min(left, x)
      right = Math.max(right, x)
      bottom = Math.min(bottom, up)
      top = Math.max(top, up)
    }
  }
  for (let j = 0; j < nv; j++) {
    for (let i = 0; i < nu; i++) {
      const uIndex = u.indices[i]!
      const shown = cell(uIndex === GAP ? u.indices[i - 1]! : uIndex, v.indices[j]!)
      cellOf[j * nu + i] = shown
      layer[j * nu + i] = uIndex === GAP ? NOTHING : mesh.layerOf[shown]!
    }
  }
  const width = high[sideways]! - low[sideways]!
  return {
    grid: { nu, nv, x_m, y_m, layer, width_m: right - left, height_m: top - bottom },
    frame: {
      left: -width / 2,
      bottom: 0,
      width,
      height: high[upward]! - low[upward]!,
      turned: turned && plane !== 'level',
    },
    cellOf,
  }
}

/** Ball and log: rings about the centre. */
function rings(mesh: Mesh, turned: boolean): Section {
  const radius = mesh.axes[0]!
  const along = middleOffset(mesh, 1)
  const parts: DrawnAxis = {
    borders: Array.from({ length: RING_PARTS + 1 }, (_, part) => (2 * Math.PI * part) / RING_PARTS),
    indices: Array.from({ length: RING_PARTS }, () => 0),
  }
  return assemble(
    mesh,
    turned,
    parts,
    drawn(radius, 0),
    (angle, r) => [r * Math.cos(angle), r * Math.sin(angle)],
    (_, i) => i + along,
  )
}

/** Everything with straight sides. */
function upright(mesh: Mesh, turned: boolean, round: boolean): Section {
  const [across, upward] = [mesh.axes[0]!, mesh.axes[1]!]
  const { low, high } = mesh.reference.bounds
  const centre = round ? 0 : (low[0] + high[0]) / 2
  const offset = middleOffset(mesh, 2)
  const horizontal = (): DrawnAxis => {
    if (round) return bothSides(across, 0)
    if (!idleEnds(across)) return drawn(across, centre)
    const half = sheetWidth(across.to - across.from, upward.to - upward.from) / 2
    return { borders: [-half, half], indices: [0] }
  }
  return assemble(
    mesh,
    turned,
    horizontal(),
    drawn(upward, 0),
    (x, y) => [x, y],
    (i, j) => i + mesh.n[0] * j + offset,
  )
}

/** Whether heat is followed in all three directions, so that cuts along and level show something of their own. */
export const hasPlanes = (mesh: Mesh): boolean =>
  mesh.coordinates.name === 'cartesian' && mesh.axes.length === 3 && mesh.axes.every((axis) => !idleEnds(axis))

/** A straight-sided body of three directions, cut along its length or level. */
export function planeSection(mesh: Mesh, plane: Exclude<CutPlane, 'across'>, turned = false): Section {
  const [sideways, upward, through] = planeAxes[plane]
  const { low, high } = mesh.reference.bounds
  const strides = [1, mesh.n[0], mesh.n[0] * mesh.n[1]] as const
  const offset = middleOffset(mesh, through)
  return assemble(
    mesh,
    turned,
    drawn(mesh.axes[sideways]!, (low[sideways]! + high[sideways]!) / 2),
    drawn(mesh.axes[upward]!, 0),
    (x, y) => [x, y],
    (i, j) => i * strides[sideways]! + j * strides[upward]! + offset,
    plane,
  )
}

/** A bowl's section: its fan of rays to both sides. */
function fanned(mesh: Mesh, turned: boolean): Section {
  const [ray, turn] = [mesh.axes[0]!, mesh.axes[1]!]
  const offset = middleOffset(mesh, 2)
  return assemble(
    mesh,
    turned,
    drawn(ray, 0),
    bothSides(turn, 0),
    (u, v) => {
      const [x, y] = mesh.coordinates.toSpace([u, Math.abs(v), 0])
      return [v < 0 ? -x : x, y]
    },
    (i, j) => i + mesh.n[0] * j + offset,
  )
}

/**
 * The section of a mesh.
 * @param turned  whether the piece has been turned over since the start
 */
export function sectionOf(mesh: Mesh, turned = false): Section {
  switch (mesh.coordinates.name) {
    case 'sphere':
    case 'lying-cylinder':
      return rings(mesh, turned)
    case 'upright-cylinder':
      return upright(mesh, turned, true)
    case 'trough':
    case 'dome':
      return fanned(mesh, turned)
    default:
      return upright(mesh, turned, false)
  }
}
