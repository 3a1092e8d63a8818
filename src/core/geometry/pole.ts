import type { Box, Coordinates } from './coordinates/coordinates.ts'
import type { MeshAxis } from './mesh-axis.ts'

/*
 * Where rays run together, cells get so narrow across that they alone would set the time step. There the cells of a
 * ring are joined in groups of 2, 4, 8, …: one heat content for the group, no heat within it. What the group stands for
 * is narrower than its ring is wide, so nothing that the grid can show is lost.
 */

/** Narrowest cell across a ray, as a share of its length along it. */
const NARROWEST = 0.05

/** Cells side by side that act as one. */
export interface JoinedCells {
  /** In the order in which they lie. */
  readonly cells: readonly number[]
  /** Width of all together, square to the rays, m. */
  readonly across: number
}

/** The groups of cells near a pole that act as one. */
export function joinAtPole(
  coordinates: Coordinates,
  axes: readonly MeshAxis[],
  n: readonly [number, number, number],
  layerOf: Int16Array,
): JoinedCells[] {
  if (coordinates.fan === undefined || (n[coordinates.fan.axis] ?? 1) < 2) return []
  const { axis: fan, to } = coordinates.fan
  const turning = Array.from(axes[fan]!.middles).filter((middle) => middle < to).length
  const other = fan === 1 ? 2 : 1
  const strides = [1, n[0], n[0] * n[1]]
  const groups: JoinedCells[] = []
  for (let k = 0; k < (n[other] ?? 1); k++) {
    for (let i = 0; i < n[0]; i++) {
      const first = i + k * strides[other]!
      const boxAt = (j: number): Box => {
        const at = [i, 0, 0]
        at[fan] = j
        at[other] = k
        return {
          low: axes.map((axis, index) => axis.borders[at[index]!]!),
          high: axes.map((axis, index) => axis.borders[at[index]! + 1]!),
        }
      }
      const radial = coordinates.distance(0, axes[0]!.borders[i]!, axes[0]!.borders[i + 1]!, boxAt(0))
      const row: { readonly cell: number; readonly across: number }[] = []
      for (let j = 0; j < turning; j++) {
        const borders = axes[fan]!.borders
        row.push({
          cell: first + j * strides[fan]!,
          across: coordinates.distance(fan, borders[j]!, borders[j + 1]!, boxAt(j)),
        })
      }
      groups.push(...groupsOf(row, NARROWEST * radial, layerOf))
    }
  }
  return groups
}

/** Runs of cells of one layer, joined in twos until each group is wide enough. */
function groupsOf(
  row: readonly { readonly cell: number; readonly across: number }[],
  least: number,
  layerOf: Int16Array,
): JoinedCells[] {
  let groups: JoinedCells[] = row.map(({ cell, across }) => ({ cells: [cell], across }))
  while (groups.length > 1 && groups.some((group) => group.across < least)) {
    const next: JoinedCells[] = []
    let changed = false
    for (let index = 0; index < groups.length; index++) {
      const one = groups[index]!
      const two = groups[index + 1]
      const alike = two !== undefined && layerOf[one.cells[0]!] === layerOf[two.cells[0]!]
      if (!alike || (one.across >= least && two.across >= least)) {
        next.push(one)
        continue
      }
      next.push({ cells: [...one.cells, ...two.cells], across: one.across + two.across })
      changed = true
      index++
    }
    if (!changed) break
    groups = next
  }
  return groups.filter((group) => group.cells.length > 1 && layerOf[group.cells[0]!]! >= 0)
}
