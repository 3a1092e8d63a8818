import type { FaceName } from '../geometry/body.ts'
import { cellIndices, type Mesh } from '../geometry/mesh.ts'
import type { FieldReader, Sample } from './field-reader.ts'

/** A place in mesh coordinates with its temperature. */
export interface Extreme {
  readonly T_C: number
  readonly coordinates: readonly number[]
}

/** Highest point of the parabola through three nodes, kept between the outer two. */
function vertex(xs: readonly [number, number, number], ys: readonly [number, number, number]): number {
  const d1 = (ys[1] - ys[0]) / (xs[1] - xs[0])
  const d2 = (ys[2] - ys[1]) / (xs[2] - xs[1])
  const bend = (d2 - d1) / (xs[2] - xs[0])
  if (bend === 0) return xs[1]
  const x = (xs[0] + xs[1]) / 2 - d1 / (2 * bend)
  return Math.min(Math.max(x, xs[0]), xs[2])
}

/** Where the parabola per axis through cell values around `origin` has its end, in mesh coordinates. */
function refineAround(mesh: Mesh, values: Float64Array, origin: number, insulated: ReadonlySet<FaceName>): number[] {
  const index = cellIndices(mesh.n, origin)
  const strides = [1, mesh.n[0], mesh.n[0] * mesh.n[1]]
  return mesh.axes.map((axis, a) => {
    const i = index[a]!
    const { middles, borders } = axis
    const value = (step: number): number => values[origin + step * strides[a]!]!
    const levelAtLow = axis.low === null || insulated.has(axis.low)
    if (i === 0) return levelAtLow ? borders[0]! : middles[0]!
    if (i === middles.length - 1) return insulated.has(axis.high) ? borders[i + 1]! : middles[i]!
    return vertex([middles[i - 1]!, middles[i]!, middles[i + 1]!], [value(-1), value(0), value(1)])
  })
}

function largest(values: Float64Array, sign: 1 | -1): number {
  let best = 0
  for (let i = 1; i < values.length; i++) if (sign * values[i]! > sign * values[best]!) best = i
  return best
}

/** Mesh coordinates of the largest of any quantity of the cells. */
export function findLargest(mesh: Mesh, values: Float64Array, insulated: ReadonlySet<FaceName>): number[] {
  return refineAround(mesh, values, largest(values, 1), insulated)
}

/**
 * The hottest place of the piece (`sign` 1) or the coldest (`sign` −1): searched over all cells and outer faces,
 * refined between cells by a parabola per axis.
 */
export function findExtreme(mesh: Mesh, reader: FieldReader, sample: Sample, sign: 1 | -1): Extreme {
  const { T_C, surface_C } = sample
  const best = largest(T_C, sign)
  const face = surface_C.length === 0 ? -1 : largest(surface_C, sign)
  if (face >= 0 && sign * surface_C[face]! > sign * T_C[best]!) {
    const link = mesh.boundary[face]!
    const coordinates = refineAround(mesh, T_C, link.cell, sample.insulated)
    const { borders } = mesh.axes[link.axis]!
    coordinates[link.axis] = link.side === 'low' ? borders[0]! : borders[borders.length - 1]!
    return { T_C: surface_C[face]!, coordinates }
  }
  const coordinates = refineAround(mesh, T_C, best, sample.insulated)
  const refined = reader.at(sample, coordinates)
  if (sign * refined >= sign * T_C[best]!) return { T_C: refined, coordinates }
  const index = cellIndices(mesh.n, best)
  return { T_C: T_C[best]!, coordinates: mesh.axes.map((axis, a) => axis.middles[index[a]!]!) }
}
