import type { SectionGrid } from '../../core/forecast-types.ts'
import type { Place } from '../../core/geometry/body.ts'

export interface Point {
  readonly x: number
  readonly y: number
}

export interface Extent {
  readonly left: number
  readonly bottom: number
  readonly width: number
  readonly height: number
}

/** A node of the grid, m. */
export function nodeAt(grid: SectionGrid, iu: number, iv: number): Point {
  const index = iv * (grid.nu + 1) + iu
  return { x: grid.x_m[index]!, y: grid.y_m[index]! }
}

/** The place of fractional node indices, bilinear within each cell, m. Indices beyond the grid are held at its edge. */
export function pointAt(grid: SectionGrid, u: number, v: number): Point {
  const inU = Math.min(grid.nu, Math.max(0, u))
  const inV = Math.min(grid.nv, Math.max(0, v))
  const iu = Math.min(grid.nu - 1, Math.floor(inU))
  const iv = Math.min(grid.nv - 1, Math.floor(inV))
  const [s, t] = [inU - iu, inV - iv]
  const [a, b, c, d] = [
    nodeAt(grid, iu, iv),
    nodeAt(grid, iu + 1, iv),
    nodeAt(grid, iu, iv + 1),
    nodeAt(grid, iu + 1, iv + 1),
  ]
  return {
    x: (1 - t) * ((1 - s) * a.x + s * b.x) + t * ((1 - s) * c.x + s * d.x),
    y: (1 - t) * ((1 - s) * a.y + s * b.y) + t * ((1 - s) * c.y + s * d.y),
  }
}

export function extentOf(grid: SectionGrid): Extent {
  let [left, right, bottom, top] = [Infinity, -Infinity, Infinity, -Infinity]
  for (let index = 0; index < grid.x_m.length; index++) {
    const [x, y] = [grid.x_m[index]!, grid.y_m[index]!]
    left = Math.min(left, x)
    right = Math.max(right, x)
    bottom = Math.min(bottom, y)
    top = Math.max(top, y)
  }
  return { left, bottom, width: right - left, height: top - bottom }
}

/** A place given as shares of the piece's bounding box, m. */
export function placePoint(place: Place, extent: Extent): Point {
  return { x: extent.left + place.x * extent.width, y: extent.bottom + place.y * extent.height }
}

export function placeOf(point: Point, extent: Extent): Place {
  const share = (at: number, from: number, size: number): number =>
    size === 0 ? 0.5 : Math.min(1, Math.max(0, (at - from) / size))
  return {
    x: share(point.x, extent.left, extent.width),
    y: share(point.y, extent.bottom, extent.height),
    z: 0.5,
  }
}

/** A node's value at the node nearest to a point, m. */
export function valueNear(grid: SectionGrid, nodes: ArrayLike<number>, point: Point): number {
  let [nearest, least] = [0, Number.POSITIVE_INFINITY]
  for (let index = 0; index < grid.x_m.length; index++) {
    const distance = (grid.x_m[index]! - point.x) ** 2 + (grid.y_m[index]! - point.y) ** 2
    if (distance < least) [nearest, least] = [index, distance]
  }
  return nodes[nearest]!
}

interface Edge {
  readonly from: Point
  readonly to: Point
}

/** Edges of the grid's rim: without those that have no length (a pole) or lie on another (a seam). */
export function outlineEdges(grid: SectionGrid): readonly Edge[] {
  const rim: Edge[] = []
  const { nu, nv } = grid
  for (let iu = 0; iu < nu; iu++) rim.push({ from: nodeAt(grid, iu, 0), to: nodeAt(grid, iu + 1, 0) })
  for (let iv = 0; iv < nv; iv++) rim.push({ from: nodeAt(grid, nu, iv), to: nodeAt(grid, nu, iv + 1) })
  for (let iu = nu; iu > 0; iu--) rim.push({ from: nodeAt(grid, iu, nv), to: nodeAt(grid, iu - 1, nv) })
  for (let iv = nv; iv > 0; iv--) rim.push({ from: nodeAt(grid, 0, iv), to: nodeAt(grid, 0, iv - 1) })
  const near = 1e-6 * Math.max(grid.width_m, grid.height_m)
  const key = (point: Point): string => `${Math.round(point.x / near)},${Math.round(point.y / near)}`
  const count = new Map<string, number>()
  const named = rim
    .filter((edge) => key(edge.from) !== key(edge.to))
    .map((edge) => ({ edge, name: [key(edge.from), key(edge.to)].sort().join(' ') }))
  for (const { name } of named) count.set(name, (count.get(name) ?? 0) + 1)
  return named.filter(({ name }) => count.get(name) === 1).map(({ edge }) => edge)
}

/** Edges between cells of different layers. */
export function layerEdges(grid: SectionGrid): readonly Edge[] {
  const edges: Edge[] = []
  const layer = (iu: number, iv: number): number | undefined => grid.layer[iv * grid.nu + iu]
  for (let iv = 0; iv < grid.nv; iv++) {
    for (let iu = 0; iu < grid.nu; iu++) {
      if (iu + 1 < grid.nu && layer(iu, iv) !== layer(iu + 1, iv)) {
        edges.push({ from: nodeAt(grid, iu + 1, iv), to: nodeAt(grid, iu + 1, iv + 1) })
      }
      if (iv + 1 < grid.nv && layer(iu, iv) !== layer(iu, iv + 1)) {
        edges.push({ from: nodeAt(grid, iu, iv + 1), to: nodeAt(grid, iu + 1, iv + 1) })
      }
    }
  }
  return edges
}

/**
 * The grid as it is drawn: a slab modelled in one direction becomes a strip of sensible width, all else stays to scale.
 */
export function drawnGrid(grid: SectionGrid, oneDimensional: boolean): SectionGrid {
  if (!oneDimensional) return grid
  const extent = extentOf(grid)
  const width = extent.height * 2.2
  const x_m = grid.x_m.map((x) => (extent.width === 0 ? x : ((x - extent.left) / extent.width) * width))
  return { ...grid, x_m, width_m: width }
}
