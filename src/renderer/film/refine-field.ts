import type { SectionGrid } from '../../core/forecast-types.ts'

/*
 * A finer grid for drawing: a curve through four neighbours (Catmull and Rom) for places and values alike, so that a
 * coarse mesh is drawn with round contours. Nodes keep their values, and no value is drawn beyond its neighbours'.
 */

/** Drawn cells in each direction that look round. */
const wanted = 72
const mostParts = 4

/** How a node of the finer grid comes out of the nodes of one direction. */
interface Blend {
  readonly nodes: readonly [number, number, number, number]
  readonly weights: readonly [number, number, number, number]
}

export interface Refinement {
  readonly grid: SectionGrid
  readonly coarse: SectionGrid
  readonly u: readonly Blend[]
  readonly v: readonly Blend[]
}

export function refineGrid(coarse: SectionGrid): Refinement {
  const { nu, nv } = coarse
  const parts = (count: number): number =>
    count === 1 ? 1 : Math.min(mostParts, Math.max(1, Math.ceil(wanted / count)))
  const [partsU, partsV] = [parts(nu), parts(nv)]
  const u = blends(nu, partsU, isClosed(coarse))
  const v = blends(nv, partsV, false)
  const fine = { nu: nu * partsU, nv: nv * partsV }
  const layer = new Int16Array(fine.nu * fine.nv).map((_, cell) => {
    const [iu, iv] = [cell % fine.nu, Math.floor(cell / fine.nu)]
    return coarse.layer[Math.floor(iv / partsV) * nu + Math.floor(iu / partsU)]!
  })
  const spread = (values: Float64Array): Float64Array => blend(u, v, nu, values)
  return {
    coarse,
    u,
    v,
    grid: { ...coarse, ...fine, layer, x_m: spread(coarse.x_m), y_m: spread(coarse.y_m) },
  }
}

/** Values at the nodes of the finer grid. */
export function refineField({ u, v, coarse }: Refinement, nodes: Float64Array): Float64Array {
  return blend(u, v, coarse.nu, nodes)
}

/** Whether the last column of nodes is the first again, as in a whole turn. */
function isClosed({ nu, nv, x_m, y_m }: SectionGrid): boolean {
  const last = nv * (nu + 1)
  const size = Math.hypot(x_m[last + (nu >> 1)]! - x_m[last]!, y_m[last + (nu >> 1)]! - y_m[last]!)
  return Math.hypot(x_m[last + nu]! - x_m[last]!, y_m[last + nu]! - y_m[last]!) < 1e-9 * size
}

function blends(count: number, parts: number, closed: boolean): readonly Blend[] {
  return Array.from({ length: count * parts + 1 }, (_, node): Blend => {
    const first = Math.min(count - 1, Math.floor(node / parts))
    const t = node / parts - first
    const at = (index: number): number => (closed ? (index + count) % count : Math.min(count, Math.max(0, index)))
    const weights: [number, number, number, number] = [
      (-t + 2 * t * t - t ** 3) / 2,
      (2 - 5 * t * t + 3 * t ** 3) / 2,
      (t + 4 * t * t - 3 * t ** 3) / 2,
      (t ** 3 - t * t) / 2,
    ]
    // At an open end the missing neighbour lies on the straight line through the last two.
    if (!closed && first === 0) {
      weights[1] += 2 * weights[0]
      weights[2] -= weights[0]
      weights[0] = 0
    }
    if (!closed && first === count - 1) {
      weights[2] += 2 * weights[3]
      weights[1] -= weights[3]
      weights[3] = 0
    }
    return { nodes: [at(first - 1), at(first), at(first + 1), at(first + 2)], weights }
  })
}

function blend(u: readonly Blend[], v: readonly Blend[], nu: number, values: ArrayLike<number>): Float64Array {
  const rows = values.length / (nu + 1)
  const across = new Float64Array(u.length * rows)
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < u.length; column++) {
      across[row * u.length + column] = mix(u[column]!, (node) => values[row * (nu + 1) + node]!)
    }
  }
  const fine = new Float64Array(u.length * v.length)
  for (let row = 0; row < v.length; row++) {
    for (let column = 0; column < u.length; column++) {
      fine[row * u.length + column] = mix(v[row]!, (node) => across[node * u.length + column]!)
    }
  }
  return fine
}

function mix({ nodes, weights }: Blend, at: (node: number) => number): number {
  const [a, b, c, d] = [at(nodes[0]), at(nodes[1]), at(nodes[2]), at(nodes[3])]
  const value = a * weights[0] + b * weights[1] + c * weights[2] + d * weights[3]
  return Math.min(Math.max(a, b, c, d), Math.max(Math.min(a, b, c, d), value))
}
