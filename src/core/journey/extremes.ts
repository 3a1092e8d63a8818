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

/**
 * The hottest place of the piece (`sign` 1) or the coldest (`sign` −1): searched over all cells and outer faces,
 * refined between cells by a parabola per axis.
 */
export function findExtreme(mesh: Mesh, reader: FieldReader, sample: Sample, sign: 1 | -1): Extreme {
  const { T_C, surface_C } = sample
  let best = 0
  for (let cell = 1; cell < mesh.cells; cell++) if (sign * T_C[cell]! > sign * T_C[best]!) best = cell
  let face = -1
  let limit = sign * T_C[best]!
  for (let index = 0; index < surface_C.length; index++) {
    if (sign * surface_C[index]! > limit) {
      limit = sign * surface_C[index]!
      face = index
    }
  }
  const origin = face < 0 ? best : mesh.boundary[face]!.cell
  const index = cellIndices(mesh.n, origin)
  const strides = [1, mesh.n[0], mesh.n[0] * mesh.n[1]]
  const coordinates = mesh.axes.map((axis, a) => {
    const i = index[a]!
    const { middles, borders } = axis
    const value = (step: number): number => T_C[origin + step * strides[a]!]!
    const levelAtLow = axis.low === null || sample.insulated.has(axis.low)
    const levelAtHigh = sample.insulated.has(axis.high)
    if (middles.length === 1) return levelAtLow ? borders[0]! : middles[0]!
    if (i === 0) return levelAtLow ? borders[0]! : middles[0]!
    if (i === middles.length - 1) return levelAtHigh ? borders[i + 1]! : middles[i]!
    return vertex([middles[i - 1]!, middles[i]!, middles[i + 1]!], [value(-1), value(0), value(1)])
  })
  if (face >= 0) {
    const link = mesh.boundary[face]!
    const { borders } = mesh.axes[link.axis]!
    coordinates[link.axis] = link.side === 'low' ? borders[0]! : borders[borders.length - 1]!
    return { T_C: surface_C[face]!, coordinates }
  }
  const refined = reader.at(sample, coordinates)
  if (sign * refined >= sign * T_C[best]!) return { T_C: refined, coordinates }
  return { T_C: T_C[best]!, coordinates: mesh.axes.map((axis, a) => axis.middles[index[a]!]!) }
}
