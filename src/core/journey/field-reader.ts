import type { FaceName } from '../geometry/body.ts'
import { cellIndices, type Mesh } from '../geometry/mesh.ts'
import { integralAt, type TablePart } from '../solver/thermal-table.ts'

/*
 * Reads a temperature anywhere in the piece from cell values: along each axis a cubic through four nodes of the same
 * layer, the layer's ends being surfaces (from the films), contacts (from both sides' conductances) or mirror planes.
 */

/** One moment's temperatures. */
export interface Sample {
  /** Shape: cells */
  readonly T_C: Float64Array
  /** Outer face and what pulls on it. Shape: mesh.boundary */
  readonly surface_C: Float64Array
  readonly outside_C: Float64Array
  /** Faces through which nothing passes at this moment: the course is level there, as at a mirror plane. */
  readonly insulated: ReadonlySet<FaceName>
}

export interface FieldReader {
  /** °C at mesh coordinates. */
  at(sample: Sample, coordinates: readonly number[]): number
}

type Index = [number, number, number]

const conductivity = (part: TablePart, T_C: number): number => integralAt(part, T_C + 0.5) - integralAt(part, T_C - 0.5)

/** Value at x of the cubic (or lower) through the nodes. */
function lagrange(xs: readonly number[], ys: readonly number[], x: number): number {
  let sum = 0
  for (let i = 0; i < xs.length; i++) {
    let term = ys[i]!
    for (let j = 0; j < xs.length; j++) if (j !== i) term *= (x - xs[j]!) / (xs[i]! - xs[j]!)
    sum += term
  }
  return sum
}

export function createFieldReader(mesh: Mesh, parts: readonly TablePart[]): FieldReader {
  const { n, axes } = mesh
  const dimensions = axes.length
  const cellOf = (index: Index): number => index[0] + n[0] * (index[1] + n[1] * index[2])
  const faceOf = new Map<number, number>()
  const key = (cell: number, axis: number, high: boolean): number => (cell * 3 + axis) * 2 + (high ? 1 : 0)
  for (const [position, link] of mesh.boundary.entries()) {
    faceOf.set(key(link.cell, link.axis, link.side === 'high'), position)
  }

  const inside = (index: Index): Index => index.map((i, axis) => Math.min(Math.max(i, 0), n[axis]! - 1)) as Index

  /** Value at a node; an index of −1 or n stands for the surface there. */
  const node = (sample: Sample, index: Index): number => {
    const clamped = inside(index)
    const cell = cellOf(clamped)
    const out = [0, 1, 2].filter((axis) => index[axis] !== clamped[axis])
    if (out.length === 0) return sample.T_C[cell]!
    const link = (axis: number): number => faceOf.get(key(cell, axis, index[axis]! > 0))!
    if (out.length === 1) return sample.surface_C[link(out[0]!)]!
    // An edge: walk along each of its faces by the other's film, and take the mean.
    let sum = 0
    for (const axis of out) {
      const along: Index = [...index]
      along[axis] = clamped[axis]!
      const beside = node(sample, along)
      const face = link(axis)
      const air = sample.outside_C[face]!
      const gap = sample.T_C[cell]! - air
      const ratio = Math.abs(gap) < 1e-9 ? 1 : (sample.surface_C[face]! - air) / gap
      sum += air + ratio * (beside - air)
    }
    return sum / out.length
  }

  const layerAt = (index: Index): number => mesh.layerOf[cellOf(inside(index))]!

  /** Value with the first `axis + 1` coordinates free; later axes stay at the node given in `fixed`. */
  const along = (sample: Sample, coordinates: readonly number[], axis: number, fixed: Index): number => {
    if (axis < 0) return node(sample, fixed)
    const { middles, borders, low, high } = axes[axis]!
    const count = middles.length
    const x = coordinates[axis]!
    const read = (i: number): number => {
      const index: Index = [...fixed]
      index[axis] = i
      return along(sample, coordinates, axis - 1, index)
    }
    // The layer at this place, and how far it reaches along the axis. Lower axes are taken where the place lies.
    const atCell = (i: number): Index => {
      const index: Index = [...fixed]
      for (let lower = 0; lower < axis; lower++) index[lower] = cellIndexOf(lower, coordinates[lower]!)
      index[axis] = i
      return index
    }
    const own = cellIndexOf(axis, x)
    const layer = layerAt(atCell(own))
    let first = own
    let last = own
    while (first > 0 && layerAt(atCell(first - 1)) === layer) first--
    while (last < count - 1 && layerAt(atCell(last + 1)) === layer) last++

    // Nodes around the place, low to high: the layer's ends and its cells. Only the chosen ones are read.
    const xs: number[] = []
    const nodes: number[] = []
    const CONTACT_LOW = -2
    const CONTACT_HIGH = count + 1
    const add = (position: number, index: number): void => {
      xs.push(position)
      nodes.push(index)
    }
    const from = Math.max(first, own - 2)
    const to = Math.min(last, own + 2)
    if (from === first) {
      if (first > 0) add(borders[first]!, CONTACT_LOW)
      else if (low !== null && !sample.insulated.has(low)) add(borders[0]!, -1)
      else for (const i of [1, 0]) if (i <= last) add(2 * borders[0]! - middles[i]!, i)
    }
    for (let i = from; i <= to; i++) add(middles[i]!, i)
    if (to === last) {
      if (last < count - 1) add(borders[last + 1]!, CONTACT_HIGH)
      else if (!sample.insulated.has(high)) add(borders[count]!, count)
      else for (const i of [count - 1, count - 2]) if (i >= first) add(2 * borders[count]! - middles[i]!, i)
    }
    const contact = (i: number): number => {
      const lowPart = parts[mesh.layerOf[cellOf(inside(atCell(i)))]!]!
      const highPart = parts[mesh.layerOf[cellOf(inside(atCell(i + 1)))]!]!
      const TLow = read(i)
      const THigh = read(i + 1)
      const lowG = conductivity(lowPart, TLow) / (borders[i + 1]! - middles[i]!)
      const highG = conductivity(highPart, THigh) / (middles[i + 1]! - borders[i + 1]!)
      return (lowG * TLow + highG * THigh) / (lowG + highG)
    }
    const valueAt = (index: number): number =>
      index === CONTACT_LOW ? contact(first - 1) : index === CONTACT_HIGH ? contact(last) : read(index)
    if (xs.length === 1) return valueAt(nodes[0]!)
    // Two nodes on each side where there are so many.
    let right = xs.findIndex((position) => position >= x)
    if (right < 1) right = right < 0 ? xs.length - 1 : 1
    const start = Math.min(Math.max(right - 2, 0), Math.max(xs.length - 4, 0))
    const nearX = xs.slice(start, start + 4)
    const nearY = nodes.slice(start, start + 4).map(valueAt)
    const lowest = Math.min(...nearY)
    const highest = Math.max(...nearY)
    // Across a corner of the thermal law a cubic would swing out; between two nodes a straight line never does.
    const bent = parts[layer]!.kinks_C.some((kink) => kink >= lowest - 1e-9 && kink <= highest + 1e-9)
    if (bent) {
      const left = right - 1 - start
      const share = (x - nearX[left]!) / (nearX[left + 1]! - nearX[left]!)
      return nearY[left]! + (nearY[left + 1]! - nearY[left]!) * Math.min(Math.max(share, 0), 1)
    }
    return lagrange(nearX, nearY, x)
  }

  function cellIndexOf(axis: number, x: number): number {
    const { borders } = axes[axis]!
    let i = 0
    while (i < borders.length - 2 && borders[i + 1]! <= x) i++
    return i
  }

  return {
    at: (sample, coordinates) => along(sample, coordinates, dimensions - 1, [0, 0, 0]),
  }
}

/** Coordinates of a cell's middle. Shape: axes */
export function middleOf(mesh: Mesh, cell: number): number[] {
  const at = cellIndices(mesh.n, cell)
  return mesh.axes.map((axis, index) => axis.middles[at[index]!]!)
}
