import type { FaceName } from '../geometry/body.ts'
import { cellIndices, idleEnds, type Mesh, NOTHING } from '../geometry/mesh.ts'
import { integralAt, type TablePart } from '../solver/thermal-table.ts'

/*
 * Reads a temperature anywhere in the piece from cell values: along each axis a cubic through four nodes of the same
 * layer, the layer's ends being surfaces (from the films), contacts (from both sides' conductances) or mirror planes.
 * Which nodes and weights a place needs is worked out once; reading a moment is then a few sums.
 */

/** One moment's temperatures, °C, somewhere in a row of numbers. */
export interface Sample {
  readonly data: Float64Array
  /** Where the cells' begin. */
  readonly cells: number
  /** Where those of outer faces and of what pulls on them begin. Shape of both: mesh.boundary */
  readonly surfaces: number
  readonly outsides: number
  /** Faces through which nothing passes at this moment: the course is level there, as at a mirror plane. */
  readonly insulated: ReadonlySet<FaceName>
}

/** Reads one place at any moment, °C. */
export type PlaceReader = (sample: Sample) => number

export interface FieldReader {
  /** Reader for a place in mesh coordinates. */
  place(coordinates: readonly number[]): PlaceReader
}

/** A cell by its index along each axis; a quarter below or above stands for its surface on that side. */
type Index = readonly [number, number, number]

/** No cell: a node whose temperature takes more than a look. */
const NOT_PLAIN = -1

const LOW_SURFACE = -0.25
const HIGH_SURFACE = 0.25

const conductivity = (part: TablePart, T_C: number): number => integralAt(part, T_C + 0.5) - integralAt(part, T_C - 0.5)

/** Weights at x of the polynomial through the nodes. Shape: xs */
function weightsAt(xs: readonly number[], x: number): number[] {
  return xs.map((own, i) => xs.reduce((term, other, j) => (j === i ? term : (term * (x - other)) / (own - other)), 1))
}

const replaced = (index: Index, axis: number, i: number): Index =>
  axis === 0 ? [i, index[1], index[2]] : axis === 1 ? [index[0], i, index[2]] : [index[0], index[1], i]

export function createFieldReader(mesh: Mesh, parts: readonly TablePart[]): FieldReader {
  const { n, axes } = mesh
  const cellOf = (index: Index): number => index[0] + n[0] * (index[1] + n[1] * index[2])
  const key = (cell: number, axis: number, high: boolean): number => (cell * 3 + axis) * 2 + (high ? 1 : 0)
  const faceOf = new Map(
    mesh.boundary.map((link, position) => [key(link.cell, link.axis, link.side === 'high'), position]),
  )
  const inside = (index: Index): Index => [Math.round(index[0]), Math.round(index[1]), Math.round(index[2])]
  const layerAt = (index: Index): number => mesh.layerOf[cellOf(inside(index))]!

  /** Reads a node: a cell's middle, its surface, or the edge between two of its surfaces. */
  const node = (index: Index): PlaceReader => {
    const clamped = inside(index)
    const cell = cellOf(clamped)
    const out = [0, 1, 2].filter((axis) => index[axis] !== clamped[axis])
    const link = (axis: number): number | undefined => faceOf.get(key(cell, axis, index[axis]! > clamped[axis]!))
    const faces = out.flatMap((axis) => {
      const face = link(axis)
      return face === undefined ? [] : [{ axis, face }]
    })
    if (faces.length === 0) return ({ data, cells }) => data[cells + cell]!
    if (faces.length === 1) {
      const { face } = faces[0]!
      return ({ data, surfaces }) => data[surfaces + face]!
    }
    // An edge: walk along each of its faces by the other's film, and take the mean.
    const walks = faces.map(({ axis, face }) => ({ face, beside: node(replaced(index, axis, clamped[axis]!)) }))
    return (sample) => {
      let sum = 0
      for (const { face, beside } of walks) {
        const { data } = sample
        const air = data[sample.outsides + face]!
        const gap = data[sample.cells + cell]! - air
        const ratio = Math.abs(gap) < 1e-9 ? 1 : (data[sample.surfaces + face]! - air) / gap
        sum += air + ratio * (beside(sample) - air)
      }
      return sum / walks.length
    }
  }

  /** Reads with the first `axis + 1` coordinates free; later axes stay at the node given in `fixed`. */
  const along = (
    coordinates: readonly number[],
    axis: number,
    fixed: Index,
    level: ReadonlySet<FaceName>,
  ): PlaceReader => {
    if (axis < 0) return node(fixed)
    const { middles, borders, low, high, apex } = axes[axis]!
    const count = middles.length
    if (idleEnds(axes[axis]!)) return along(coordinates, axis - 1, fixed, level)
    const x = coordinates[axis]!
    const read = (i: number): PlaceReader => along(coordinates, axis - 1, replaced(fixed, axis, i), level)
    // The layer at this place, and how far it reaches along the axis. Lower axes are taken where the place lies.
    let here = fixed
    for (let lower = 0; lower < axis; lower++) here = replaced(here, lower, cellAlong(lower, coordinates[lower]!))
    const own = cellAlong(axis, x)
    const layer = layerAt(replaced(here, axis, own))
    if (layer === NOTHING) return () => Number.NaN
    let first = own
    let last = own
    while (first > 0 && layerAt(replaced(here, axis, first - 1)) === layer) first--
    while (last < count - 1 && layerAt(replaced(here, axis, last + 1)) === layer) last++

    const contact = (i: number): PlaceReader => {
      const lowPart = parts[layerAt(replaced(here, axis, i))]!
      const highPart = parts[layerAt(replaced(here, axis, i + 1))]!
      const lowReader = read(i)
      const highReader = read(i + 1)
      const cell = cellOf(inside(replaced(here, axis, i)))
      const toFace = mesh.toFace[axis]![cell]!
      const fromFace = mesh.fromFace[axis]![cell]!
      return (sample) => {
        const TLow = lowReader(sample)
        const THigh = highReader(sample)
        const lowG = conductivity(lowPart, TLow) / toFace
        const highG = conductivity(highPart, THigh) / fromFace
        return (lowG * TLow + highG * THigh) / (lowG + highG)
      }
    }

    // Nodes around the place, low to high: the layer's ends and its cells. Only the chosen ones are made.
    const nodes: { readonly x: number; readonly make: () => PlaceReader; readonly cell: number }[] = []
    const add = (position: number, make: () => PlaceReader, cell = NOT_PLAIN): void => {
      nodes.push({ x: position, make, cell })
    }
    const lowest = axes.slice(0, axis).every(idleEnds)
    /** The cell that a node is the middle of, where all it takes is to look there. */
    const plain = (i: number): number => {
      const index = replaced(fixed, axis, i)
      return lowest && index.every(Number.isInteger) ? cellOf(index) : NOT_PLAIN
    }
    const from = Math.max(first, own - 2)
    const to = Math.min(last, own + 2)
    const emptyAt = (i: number): boolean => layerAt(replaced(here, axis, i)) === NOTHING
    if (from === first) {
      if (first > 0 && !emptyAt(first - 1)) add(borders[first]!, () => contact(first - 1))
      else if (first > 0 || (low !== null && !level.has(low))) add(borders[first]!, () => read(first + LOW_SURFACE))
      else if (!apex) for (const i of [1, 0]) if (i <= last) add(2 * borders[0]! - middles[i]!, () => read(i))
    }
    for (let i = from; i <= to; i++) add(middles[i]!, () => read(i), plain(i))
    if (to === last) {
      if (last < count - 1 && !emptyAt(last + 1)) add(borders[last + 1]!, () => contact(last))
      else if (last < count - 1 || (high !== null && !level.has(high)))
        add(borders[last + 1]!, () => read(last + HIGH_SURFACE))
      else for (const i of [count - 1, count - 2]) if (i >= first) add(2 * borders[count]! - middles[i]!, () => read(i))
    }
    if (nodes.length === 1) return nodes[0]!.make()
    // Two nodes on each side where there are so many.
    let right = nodes.findIndex((one) => one.x >= x)
    if (right < 1) right = right < 0 ? nodes.length - 1 : 1
    const start = Math.min(Math.max(right - 2, 0), Math.max(nodes.length - 4, 0))
    const near = nodes.slice(start, start + 4)
    const readers = near.map((one) => one.make())
    const plainCells = Int32Array.from(near, (one) => one.cell)
    const allPlain = plainCells.every((cell) => cell !== NOT_PLAIN)
    const weights = weightsAt(
      near.map((one) => one.x),
      x,
    )
    const left = right - 1 - start
    const share = Math.min(Math.max((x - near[left]!.x) / (near[left + 1]!.x - near[left]!.x), 0), 1)
    const { kinks_C } = parts[layer]!
    const values = new Float64Array(near.length)
    return (sample) => {
      let lowest = Number.POSITIVE_INFINITY
      let highest = Number.NEGATIVE_INFINITY
      let sum = 0
      for (let i = 0; i < readers.length; i++) {
        const value = allPlain ? sample.data[sample.cells + plainCells[i]!]! : readers[i]!(sample)
        values[i] = value
        sum += weights[i]! * value
        if (value < lowest) lowest = value
        if (value > highest) highest = value
      }
      // Across a corner of the thermal law a cubic would swing out; between two nodes a straight line never does.
      for (const kink of kinks_C) {
        if (kink >= lowest - 1e-9 && kink <= highest + 1e-9)
          return values[left]! + (values[left + 1]! - values[left]!) * share
      }
      return sum
    }
  }

  const cellAlong = (axis: number, x: number): number => {
    const { borders } = axes[axis]!
    let i = 0
    while (i < borders.length - 2 && borders[i + 1]! <= x) i++
    return i
  }

  return {
    place(coordinates) {
      // The nodes depend on which faces are level; a journey has few such sets.
      const made = new Map<ReadonlySet<FaceName>, PlaceReader>()
      return (sample) => {
        let reader = made.get(sample.insulated)
        if (reader === undefined) {
          reader = along(coordinates, axes.length - 1, [0, 0, 0], sample.insulated)
          made.set(sample.insulated, reader)
        }
        return reader(sample)
      }
    },
  }
}

/** Coordinates of a cell's middle. Shape: axes */
export function middleOf(mesh: Mesh, cell: number): number[] {
  const at = cellIndices(mesh.n, cell)
  return mesh.axes.map((axis, index) => axis.middles[at[index]!]!)
}
