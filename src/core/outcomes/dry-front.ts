import type { Place } from '../geometry/body.ts'
import { cellAt, cellIndices, cellsThere, depthOf, locate, type Mesh, placeOf } from '../geometry/mesh.ts'
import type { Course } from '../journey/course.ts'
import { placeRanges } from './place-ranges.ts'

/** How far heat has reached: the deepest point that was ever as hot as asked. */
export interface Front {
  readonly where: Place
  /** Below the nearest outer face, m. */
  readonly depth: number
}

/** A cell beside another one along an axis; undefined beyond the grid or where nothing is. */
type Beside = (cell: number, axis: number, by: -1 | 1) => number | undefined

function neighbours(mesh: Mesh, hottest_C: Float64Array): Beside {
  return (cell, axis, by) => {
    const at = cellIndices(mesh.n, cell)[axis]! + by
    if (at < 0 || at >= mesh.n[axis]!) return undefined
    const other = cell + by * mesh.n.slice(0, axis).reduce((stride, n) => stride * n, 1)
    return Number.isNaN(hottest_C[other]!) ? undefined : other
  }
}

/**
 * Share of the way from a cell to a cooler one at which the limit lies. Where the cell on the other side is hotter, the
 * line through these two ends the way sooner: beyond a front that boils, all is at the boil, and a line to there would
 * end beside the cooler cell whatever the front does.
 * @param T_C  of the hotter cell on the other side (or undefined), the cell, the cooler one
 * @param way  between the first two, and between the last two, m
 */
function shareBetween(
  T_C: readonly [number | undefined, number, number],
  way: readonly [number, number],
  limit_C: number,
) {
  const [before, own, next] = T_C
  const straight = (own - limit_C) / (own - next)
  if (before === undefined || before <= own) return straight
  return Math.min(straight, ((own - limit_C) * way[0]) / ((before - own) * way[1]))
}

const middleOf = (mesh: Mesh, cell: number): number[] => {
  const at = cellIndices(mesh.n, cell)
  return mesh.axes.map(({ middles }, axis) => middles[at[axis]!]!)
}

/** Where no cell was as hot as the limit, but a face: between the hottest place of it and the middle of its cell. */
function crossingAtFace(course: Course, mesh: Mesh, hottest_C: Float64Array, limit_C: number): readonly number[] {
  const highest_C = course.hottest_C.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY)
  const face = locate(mesh, course.hottestAt(course.hottest_C.indexOf(highest_C)))
  const cell = cellAt(mesh, face)
  const inner_C = hottest_C[cell]!
  // A face may border on a cell that is empty now.
  const share = Number.isNaN(inner_C) ? 0 : (highest_C - limit_C) / (highest_C - inner_C)
  return middleOf(mesh, cell).map((middle, axis) => face[axis]! + share * (middle - face[axis]!))
}

/** Middles of all cells that were hotter, and every point at which the limit lies between one of them and one that was not. */
function crossings(mesh: Mesh, hottest_C: Float64Array, limit_C: number): (readonly number[])[] {
  const beside = neighbours(mesh, hottest_C)
  const points: (readonly number[])[] = []
  for (const cell of cellsThere(mesh)) {
    const own = hottest_C[cell]!
    if (!(own > limit_C)) continue
    const at = cellIndices(mesh.n, cell)
    const middle = middleOf(mesh, cell)
    points.push(middle)
    for (const [axis, { middles }] of mesh.axes.entries())
      for (const by of [-1, 1] as const) {
        const next = beside(cell, axis, by)
        if (next === undefined || hottest_C[next]! > limit_C) continue
        const before = beside(cell, axis, by === 1 ? -1 : 1)
        const i = at[axis]!
        const way = [
          Math.abs(middles[i]! - (middles[i - by] ?? Number.NaN)),
          Math.abs(middles[i + by]! - middles[i]!),
        ] as const
        const outer = before === undefined ? undefined : hottest_C[before]!
        const share = shareBetween([outer, own, hottest_C[next]!], way, limit_C)
        points.push(middle.with(axis, middle[axis]! + share * (middles[i + by]! - middles[i]!)))
      }
  }
  return points
}

/**
 * The deepest point of the final piece that was ever hotter than a limit, between cells by lines through the hottest
 * that each of them was; undefined where no place was.
 * @param limit_C  °C
 */
export function deepestHotter(course: Course, limit_C: number): Front | undefined {
  if (!course.hottest_C.some((T_C) => T_C > limit_C)) return undefined
  const { mesh } = course.segments[course.segments.length - 1]!
  const hottest_C = new Float64Array(mesh.cells).fill(Number.NaN)
  const ranges = placeRanges(course)
  for (const [index, cell] of cellsThere(mesh).entries()) hottest_C[cell] = ranges.hottest_C[index]!
  let deepest: { readonly at: readonly number[]; readonly depth: number } | undefined
  const found = crossings(mesh, hottest_C, limit_C)
  if (found.length === 0) found.push(crossingAtFace(course, mesh, hottest_C, limit_C))
  for (const at of found) {
    const depth = depthOf(mesh, at)
    if (deepest === undefined || depth > deepest.depth) deepest = { at, depth }
  }
  return { where: placeOf(mesh, deepest!.at), depth: deepest!.depth }
}
