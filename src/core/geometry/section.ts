import type { SectionGrid } from '../forecast-types.ts'
import type { Mesh, MeshAxis } from './mesh.ts'

/*
 * The section that is drawn is the one that was computed: cells of the mesh, both halves of a mirrored axis shown, a
 * radius turned to both sides, a sphere as rings. A block is cut in the middle of its length.
 */

/** A drawn section: its grid, and for each of its cells the mesh cell that it shows. */
export interface Section {
  readonly grid: SectionGrid
  /** Shape: nu × nv */
  readonly cellOf: Int32Array
}

/** Borders of an axis as drawn, m, and the mesh index of each drawn cell. */
interface DrawnAxis {
  readonly borders: readonly number[]
  readonly indices: readonly number[]
}

const bothSides = (axis: MeshAxis): DrawnAxis => {
  const count = axis.middles.length
  const outward = Array.from(axis.borders)
  return {
    borders: [
      ...outward
        .slice(1)
        .reverse()
        .map((border) => -border),
      ...outward,
    ],
    indices: [...Array.from({ length: count }, (_, i) => count - 1 - i), ...Array.from({ length: count }, (_, i) => i)],
  }
}

function drawn(axis: MeshAxis): DrawnAxis {
  if (axis.mirrored || axis.low === null) return bothSides(axis)
  const half = axis.length / 2
  return {
    borders: Array.from(axis.borders, (border) => border - half),
    indices: Array.from(axis.middles, (_, i) => i),
  }
}

/** Width at which a sheet is drawn: its own, but not so wide that its height vanishes. */
function sheetWidth(area: number, height: number): number {
  return Math.min(Math.sqrt(area), 5 * height)
}

/** Parts of the turn in which a ball's rings are drawn. */
const RING_PARTS = 48

function rings(mesh: Mesh): Section {
  const axis = mesh.axes[0]!
  const nu = RING_PARTS
  const nv = axis.middles.length
  const x_m = new Float64Array((nu + 1) * (nv + 1))
  const y_m = new Float64Array((nu + 1) * (nv + 1))
  const layer = new Int16Array(nu * nv)
  const cellOf = new Int32Array(nu * nv)
  for (let v = 0; v <= nv; v++) {
    for (let u = 0; u <= nu; u++) {
      const angle = (2 * Math.PI * u) / nu
      x_m[v * (nu + 1) + u] = axis.borders[v]! * Math.cos(angle)
      y_m[v * (nu + 1) + u] = axis.borders[v]! * Math.sin(angle)
      if (u === nu || v === nv) continue
      cellOf[v * nu + u] = v
      layer[v * nu + u] = mesh.layerOf[v]!
    }
  }
  const size = 2 * axis.length
  return { grid: { nu, nv, x_m, y_m, layer, width_m: size, height_m: size }, cellOf }
}

export function sectionOf(mesh: Mesh): Section {
  const carriers = mesh.body.axes.map((axis) => axis.carries)
  if (mesh.body.coordinates.name === 'sphere') return rings(mesh)
  const across = carriers.indexOf('x')
  const upward = carriers.indexOf('y')
  const along = carriers.indexOf('z')
  const vertical = drawn(mesh.axes[upward]!)
  const height = mesh.axes[upward]!.length
  const horizontal: DrawnAxis =
    across < 0
      ? {
          borders: [-sheetWidth(mesh.body.measure, height) / 2, sheetWidth(mesh.body.measure, height) / 2],
          indices: [0],
        }
      : drawn(mesh.axes[across]!)
  const cut = along < 0 ? 0 : middleIndex(mesh.axes[along]!)
  const strides = [1, mesh.n[0], mesh.n[0] * mesh.n[1]]
  const nu = horizontal.indices.length
  const nv = vertical.indices.length
  const x_m = new Float64Array((nu + 1) * (nv + 1))
  const y_m = new Float64Array((nu + 1) * (nv + 1))
  const layer = new Int16Array(nu * nv)
  const cellOf = new Int32Array(nu * nv)
  for (let v = 0; v <= nv; v++) {
    for (let u = 0; u <= nu; u++) {
      x_m[v * (nu + 1) + u] = horizontal.borders[u]!
      y_m[v * (nu + 1) + u] = vertical.borders[v]! + height / 2
      if (u === nu || v === nv) continue
      const cell =
        vertical.indices[v]! * strides[upward]! +
        (across < 0 ? 0 : horizontal.indices[u]! * strides[across]!) +
        (along < 0 ? 0 : cut * strides[along]!)
      cellOf[v * nu + u] = cell
      layer[v * nu + u] = mesh.layerOf[cell]!
    }
  }
  const width = horizontal.borders[nu]! - horizontal.borders[0]!
  return { grid: { nu, nv, x_m, y_m, layer, width_m: width, height_m: height }, cellOf }
}

function middleIndex(axis: MeshAxis): number {
  if (axis.mirrored) return 0
  let i = 0
  while (i < axis.middles.length - 1 && axis.borders[i + 1]! <= axis.length / 2) i++
  return i
}
