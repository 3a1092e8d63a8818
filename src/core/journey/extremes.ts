import type { FaceName } from '../geometry/body.ts'
import { cellIndices, type Mesh } from '../geometry/mesh.ts'
import type { Sample } from './field-reader.ts'

/** A place in mesh coordinates with its temperature. */
export interface Extreme {
  readonly T_C: number
  readonly coordinates: readonly number[]
}

/** Where the parabola through three nodes has its end, kept between the outer two, and how far it lies from the middle one. */
function vertex(
  x0: number,
  x1: number,
  x2: number,
  y0: number,
  y1: number,
  y2: number,
): { readonly x: number; readonly gain: number } {
  const d1 = (y1 - y0) / (x1 - x0)
  const d2 = (y2 - y1) / (x2 - x1)
  const bend = (d2 - d1) / (x2 - x0)
  if (bend === 0) return { x: x1, gain: 0 }
  const x = Math.min(Math.max((x0 + x1) / 2 - d1 / (2 * bend), x0), x2)
  return { x, gain: (d1 + bend * (x - x0)) * (x - x1) }
}

/**
 * Refines a cell's value by a parabola per axis: the end of the course between the cells.
 * @param first  where the cells' values begin
 */
function refineAround(mesh: Mesh, values: Float64Array, first: number, cell: number, insulated: ReadonlySet<FaceName>) {
  const index = cellIndices(mesh.n, cell)
  const origin = first + cell
  const own = values[origin]!
  let gain = 0
  let stride = 1
  const coordinates = mesh.axes.map((axis, a) => {
    const i = index[a]!
    const { middles, borders } = axis
    const below = i === 0 ? Number.NaN : values[origin - stride]!
    const above = i === middles.length - 1 ? Number.NaN : values[origin + stride]!
    stride *= mesh.n[a]!
    const last = middles.length - 1
    const levelAtLow = axis.low === null ? !axis.apex : insulated.has(axis.low)
    const levelAtHigh = axis.high === null || insulated.has(axis.high)
    // At a level end the course goes on as in a mirror.
    if (last === 0) {
      if (levelAtLow === levelAtHigh && !axis.mirrored) return middles[0]!
      return levelAtLow ? borders[0]! : borders[1]!
    }
    if (i === 0 && levelAtLow && !Number.isNaN(above)) {
      const found = vertex(2 * borders[0]! - middles[0]!, middles[0]!, middles[1]!, own, own, above)
      gain += found.gain
      return found.x
    }
    if (i === last && levelAtHigh && !Number.isNaN(below)) {
      const end = borders[last + 1]!
      const found = vertex(middles[last - 1]!, middles[last]!, 2 * end - middles[last]!, below, own, own)
      gain += found.gain
      return found.x
    }
    if (Number.isNaN(below) || Number.isNaN(above)) return middles[i]!
    const found = vertex(middles[i - 1]!, middles[i]!, middles[i + 1]!, below, own, above)
    gain += found.gain
    return found.x
  })
  return { coordinates, value: own + gain }
}

/** Which of `count` values from `first` on is the largest (`sign` 1) or smallest (−1); those that aren't there (NaN) don't count. */
function largest(values: Float64Array, first: number, count: number, sign: 1 | -1): number {
  let best = 0
  let most = Number.NEGATIVE_INFINITY
  for (let i = 0; i < count; i++) {
    const value = sign * values[first + i]!
    if (value > most) {
      most = value
      best = i
    }
  }
  return best
}

/** Mesh coordinates of the largest of any quantity of the cells. Shape of values: cells */
export function findLargest(mesh: Mesh, values: Float64Array, insulated: ReadonlySet<FaceName>): number[] {
  return refineAround(mesh, values, 0, largest(values, 0, mesh.cells, 1), insulated).coordinates
}

/**
 * The hottest place of the piece (`sign` 1) or the coldest (`sign` −1): searched over all cells and outer faces,
 * refined between cells by a parabola per axis, which must not cross a corner of the thermal law.
 */
export function findExtreme(mesh: Mesh, sample: Sample, sign: 1 | -1): Extreme {
  const { data, cells, surfaces, insulated, parts } = sample
  const best = largest(data, cells, mesh.cells, sign)
  const own = data[cells + best]!
  const faces = mesh.boundary.length
  const face = faces === 0 ? -1 : largest(data, surfaces, faces, sign)
  if (face >= 0 && sign * data[surfaces + face]! > sign * own) {
    const link = mesh.boundary[face]!
    const { coordinates } = refineAround(mesh, data, cells, link.cell, insulated)
    const { borders } = mesh.axes[link.axis]!
    const at = cellIndices(mesh.n, link.cell)[link.axis]!
    coordinates[link.axis] = borders[link.side === 'low' ? at : at + 1]!
    return { T_C: data[surfaces + face]!, coordinates }
  }
  const { coordinates, value } = refineAround(mesh, data, cells, best, insulated)
  const crossed = parts[mesh.layerOf[best]!]!.kinks_C.some(
    (kink) => (kink - own) * (kink - value) <= 0 && value !== own,
  )
  return crossed || sign * value < sign * own ? { T_C: own, coordinates } : { T_C: value, coordinates }
}
