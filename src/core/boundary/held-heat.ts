/* Layers outside the piece that hold heat of their own: mould walls, boards, heavy lids. */

/** A slice of such a layer: its heat sits in its middle. */
export interface HeatNode {
  /** Of the layer; slices of one layer share it. Heat goes on from stage to stage while the layer stays on its face. */
  readonly layer: string
  /** J/(m² K), per m² of the piece's own face. */
  readonly heat: number
  /** °C when it comes to the piece; absent: as the air that it lies in. */
  readonly start_C?: number
}

/** A face's layers as a chain of nodes from the piece outward, per m² of the piece's own face. */
export interface HeldHeat {
  readonly nodes: readonly HeatNode[]
  /** m² K/W from the piece to the first node, from node to node, from the last to the outermost surface. Shape: nodes + 1 */
  readonly R: readonly number[]
  /** Which of these a closed layer of air is in; −1 where there is none. */
  readonly gapAt: number
}

/**
 * Weight of a step's end in its mean, for a node that follows within `z` of its own times: a half in short steps, so
 * that they are of second order; near one in long steps, so that nothing rings. Exact where the rest stands still.
 */
export function endWeight(z: number): number {
  if (z < 1e-3) return 0.5 + z / 12
  return z > 40 ? 1 - 1 / z : 1 / (1 - Math.exp(-z)) - 1 / z
}

/** Time that heat takes to cross a slice; a layer is cut until none takes longer, s (choice: a share of an hour). */
const SLICE_TIME = 150
const MOST_SLICES = 4

/** How many slices a layer of `thickness` m and `diffusivity` m²/s is followed by. */
export function slicesOf(thickness: number, diffusivity: number): number {
  const slices = Math.ceil(Math.sqrt(thickness ** 2 / diffusivity / SLICE_TIME))
  return Math.min(Math.max(slices, 1), MOST_SLICES)
}
