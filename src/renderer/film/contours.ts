import { contours } from 'd3-contour'

import type { SectionGrid } from '../../core/forecast-types.ts'
import { type Point, pointAt } from './section-shape.ts'

/** Where the field is at or above a value: closed rings, holes among them, m. Fill with the even-odd rule. */
export type Region = readonly (readonly Point[])[]

/** A line of one value, m; closed when it ends where it began. */
export type ContourLine = readonly Point[]

type Ring = readonly (readonly number[])[]

const ringsAt = (grid: SectionGrid, nodes: Float64Array, value: number): readonly Ring[] =>
  contours()
    .size([grid.nu + 1, grid.nv + 1])
    .contour(Array.from(nodes), value)
    .coordinates.flat()

/** Node (i, j) lies at (i + 0.5, j + 0.5) of the contour's plane; what it draws beyond the rim is held at the rim. */
const place = (grid: SectionGrid, point: readonly number[]): Point => pointAt(grid, point[0]! - 0.5, point[1]! - 0.5)

export function regionAbove(grid: SectionGrid, nodes: Float64Array, value: number): Region {
  return ringsAt(grid, nodes, value).map((ring) => ring.map((point) => place(grid, point)))
}

/** Whether nothing is at a point of the index plane. */
function isEmpty({ nu, nv, layer }: SectionGrid, u: number, v: number): boolean {
  const [iu, iv] = [Math.min(nu - 1, Math.floor(u)), Math.min(nv - 1, Math.floor(v))]
  return layer[iv * nu + iu] === -1
}

/** The rings' parts inside the rim and where something is: where a ring runs along the rim it is no contour. */
export function contourLines(grid: SectionGrid, nodes: Float64Array, value: number): readonly ContourLine[] {
  const beyond = ([x = 0, y = 0]: readonly number[]): boolean =>
    x < 0.5 || y < 0.5 || x > grid.nu + 0.5 || y > grid.nv + 0.5 || isEmpty(grid, x - 0.5, y - 0.5)
  return ringsAt(grid, nodes, value).flatMap((ring) => {
    const firstBeyond = ring.findIndex(beyond)
    if (firstBeyond < 0) return [ring.map((point) => place(grid, point))]
    // Begin the walk beyond the rim, so that no line is cut where the ring happened to begin.
    const open = ring.slice(0, -1)
    const walk = [...open.slice(firstBeyond), ...open.slice(0, firstBeyond)]
    const lines: Point[][] = []
    let line: Point[] = []
    for (const point of walk) {
      if (beyond(point)) {
        if (line.length > 1) lines.push(line)
        line = []
      } else line.push(place(grid, point))
    }
    if (line.length > 1) lines.push(line)
    return lines
  })
}

export function lineLength(line: ContourLine): number {
  let length = 0
  for (let index = 1; index < line.length; index++) {
    const [from, to] = [line[index - 1]!, line[index]!]
    length += Math.hypot(to.x - from.x, to.y - from.y)
  }
  return length
}
