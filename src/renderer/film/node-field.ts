import type { SectionGrid } from '../../core/forecast-types.ts'
import { pointAt } from './section-shape.ts'

/** How the nodes' values come out of the cells': weights that depend on the grid alone. */
export interface NodeWeights {
  readonly nu: number
  readonly nv: number
  /** Per node along u (v): first cell, second cell and the second's weight. Shape: nu + 1 (nv + 1) */
  readonly u: readonly AxisWeight[]
  readonly v: readonly AxisWeight[]
}

interface AxisWeight {
  readonly first: number
  readonly second: number
  readonly share: number
}

/**
 * Widths are measured along the middle line of each direction; at the rim the value is carried on from the last two
 * cells, so that a face's temperature is that of the face and not of the first cell's middle.
 */
export function nodeWeights(grid: SectionGrid): NodeWeights {
  const along = (count: number, at: (index: number) => { x: number; y: number }): readonly AxisWeight[] => {
    const widths = Array.from({ length: count }, (_, index) => {
      const [from, to] = [at(index), at(index + 1)]
      return Math.max(1e-12, Math.hypot(to.x - from.x, to.y - from.y))
    })
    return Array.from({ length: count + 1 }, (_, node): AxisWeight => {
      if (count === 1) return { first: 0, second: 0, share: 0 }
      const second = Math.min(count - 1, Math.max(1, node))
      const first = second - 1
      const [a, b] = [widths[first]!, widths[second]!]
      const middle = a / (a + b)
      if (node === 0) return { first, second, share: -middle }
      if (node === count) return { first, second, share: 1 + b / (a + b) }
      return { first, second, share: middle }
    })
  }
  return {
    nu: grid.nu,
    nv: grid.nv,
    // A quarter up, not the half: a pole's middle line may lie on a symmetry axis where cells have no width.
    u: along(grid.nu, (index) => pointAt(grid, index, grid.nv * 0.5)),
    v: along(grid.nv, (index) => pointAt(grid, grid.nu * 0.25, index)),
  }
}

/** Values at the nodes. Shape in: nu × nv; out: (nu + 1) × (nv + 1) */
export function nodeField(weights: NodeWeights, cells: ArrayLike<number>): Float64Array {
  const { nu, nv } = weights
  const rows = new Float64Array((nu + 1) * nv)
  for (let iv = 0; iv < nv; iv++) {
    weights.u.forEach(({ first, second, share }, iu) => {
      const [a, b] = [cells[iv * nu + first]!, cells[iv * nu + second]!]
      rows[iv * (nu + 1) + iu] = a + share * (b - a)
    })
  }
  const nodes = new Float64Array((nu + 1) * (nv + 1))
  weights.v.forEach(({ first, second, share }, iv) => {
    for (let iu = 0; iu <= nu; iu++) {
      const [a, b] = [rows[first * (nu + 1) + iu]!, rows[second * (nu + 1) + iu]!]
      nodes[iv * (nu + 1) + iu] = a + share * (b - a)
    }
  })
  return nodes
}
