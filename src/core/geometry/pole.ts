import type { Box, Coordinates } from './coordinates/coordinates.ts'
import type { MeshAxis } from './mesh-axis.ts'

/*
 * Where rays run together, cells get so narrow across that they alone would set the time step. There the cells of a
 * ring are joined in groups of 2, 4, 8, …: one heat content for the group, no heat within it. What the group stands for
 * is hardly wider than the shortest cell along the rays, so nothing that the grid can show is lost, and the group does
 * not shorten the step.
 */

/** Narrowest cell across a ray, as a share of the shortest cell along one. */
const NARROWEST = 0.5

/** A cell of a ring around the pole. */
interface RingCell {
  readonly cell: number
  /** Width square to the rays, m. */
  readonly across: number
  /** Angles of the rays on both sides, rad. */
  readonly low: number
  readonly high: number
}

/** Cells side by side that act as one, in the order in which they lie. */
export interface JoinedCells {
  readonly ring: readonly RingCell[]
  /** Width of all together, square to the rays, m. */
  readonly across: number
}

/**
 * How far joined cells lie from a ray that bounds them, m, in the mean over their volume. Near a pole temperature runs
 * evenly through space, not along the arc: half the arc would be too far.
 * @param volume  Shape: cells
 */
export function meanDepth({ ring }: JoinedCells, ray: number, volume: Float64Array): number {
  let sum = 0
  let total = 0
  for (const { cell, across, low, high } of ring) {
    const radius = across / (high - low)
    const angle = Math.min(Math.abs(ray - (low + high) / 2), Math.PI / 2)
    sum += volume[cell]! * radius * Math.sin(angle)
    total += volume[cell]!
  }
  return sum / total
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
  const rows: RingCell[][] = []
  let shortest = Number.POSITIVE_INFINITY
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
      shortest = Math.min(shortest, coordinates.distance(0, axes[0]!.borders[i]!, axes[0]!.borders[i + 1]!, boxAt(0)))
      const row: RingCell[] = []
      for (let j = 0; j < turning; j++) {
        const borders = axes[fan]!.borders
        row.push({
          cell: first + j * strides[fan]!,
          across: coordinates.distance(fan, borders[j]!, borders[j + 1]!, boxAt(j)),
          low: borders[j]!,
          high: borders[j + 1]!,
        })
      }
      rows.push(row)
    }
  }
  return rows.flatMap((row) => groupsOf(row, NARROWEST * shortest, layerOf))
}

/** Runs of cells of one layer, joined in twos until each group is wide enough. */
function groupsOf(row: readonly RingCell[], least: number, layerOf: Int16Array): JoinedCells[] {
  const layerIn = ({ ring }: JoinedCells): number => layerOf[ring[0]!.cell]!
  let groups: JoinedCells[] = row.map((cell) => ({ ring: [cell], across: cell.across }))
  while (groups.length > 1 && groups.some((group) => group.across < least)) {
    const next: JoinedCells[] = []
    let changed = false
    for (let index = 0; index < groups.length; index++) {
      const one = groups[index]!
      const two = groups[index + 1]
      const alike = two !== undefined && layerIn(one) === layerIn(two)
      if (!alike || (one.across >= least && two.across >= least)) {
        next.push(one)
        continue
      }
      next.push({ ring: [...one.ring, ...two.ring], across: one.across + two.across })
      changed = true
      index++
    }
    if (!changed) break
    groups = next
  }
  return groups.filter((group) => group.ring.length > 1 && layerIn(group) >= 0)
}
