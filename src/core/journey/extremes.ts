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

/** Refines a cell's value by a parabola per axis: the end of the course between the cells. */
function refineAround(mesh: Mesh, values: Float64Array, origin: number, insulated: ReadonlySet<FaceName>) {
  const index = cellIndices(mesh.n, origin)
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

/** Index of the largest value (`sign` 1) or the smallest (−1); values that aren't there (NaN) don't count. */
function largest(values: Float64Array, sign: 1 | -1): number {
  let best = 0
  let most = Number.NEGATIVE_INFINITY
  for (let i = 0; i < values.length; i++) {
    const value = sign * values[i]!
    if (value > most) {
      most = value
      best = i
    }
  }
  return best
}

/** Mesh coordinates of the largest of any quantity of the cells. */
export function findLargest(mesh: Mesh, values: Float64Array, insulated: ReadonlySet<FaceName>): number[] {
  return refineAround(mesh, values, largest(values, 1), insulated).coordinates
}

/**
 * The hottest place of the piece (`sign` 1) or the coldest (`sign` −1): searched over all cells and outer faces,
 * refined between cells by a parabola per axis.
 * @param kinks_C  corners of the thermal law of every layer: a parabola must not cross one. Shape: layers
 */
export function findExtreme(
  mesh: Mesh,
  sample: Sample,
  sign: 1 | -1,
  kinks_C: readonly (readonly number[])[],
): Extreme {
  const { T_C, surface_C } = sample
  const best = largest(T_C, sign)
  const own = T_C[best]!
  const face = surface_C.length === 0 ? -1 : largest(surface_C, sign)
  if (face >= 0 && sign * surface_C[face]! > sign * own) {
    const link = mesh.boundary[face]!
    const { coordinates } = refineAround(mesh, T_C, link.cell, sample.insulated)
    const { borders } = mesh.axes[link.axis]!
    const at = cellIndices(mesh.n, link.cell)[link.axis]!
    coordinates[link.axis] = borders[link.side === 'low' ? at : at + 1]!
    return { T_C: surface_C[face]!, coordinates }
  }
  const { coordinates, value } = refineAround(mesh, T_C, best, sample.insulated)
  const crossed = kinks_C[mesh.layerOf[best]!]!.some((kink) => (kink - own) * (kink - value) <= 0 && value !== own)
  return crossed || sign * value < sign * own ? { T_C: own, coordinates } : { T_C: value, coordinates }
}
