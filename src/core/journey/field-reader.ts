import type { FaceName } from '../geometry/body.ts'
import { cellAt, cellIndices, idleEnds, type Mesh, NOTHING } from '../geometry/mesh.ts'
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
  /** Table of every layer. Shape: mesh.layers */
  readonly parts: readonly TablePart[]
}

/** Reads one place at any moment, °C. */
export type PlaceReader = (sample: Sample) => number

export interface FieldReader {
  /** Reader for a place in mesh coordinates. */
  place(coordinates: readonly number[]): PlaceReader
}

/** A cell by its index along each axis; a quarter below or above stands for its surface on that side. */
type Index = readonly [number, number, number]

/** A place as weighed means of cells and outer faces, where it is no more than that. */
interface Stencil {
  readonly cells: Int32Array
  readonly cellWeights: Float64Array
  readonly faces: Int32Array
  readonly faceWeights: Float64Array
}

/** A reader, and the stencil that gives the same but where a corner of the thermal law lies between its values. */
interface Reading {
  readonly read: PlaceReader
  readonly stencil?: Stencil
}

const ofCell = (cell: number): Stencil => ({
  cells: Int32Array.of(cell),
  cellWeights: Float64Array.of(1),
  faces: new Int32Array(0),
  faceWeights: new Float64Array(0),
})

const ofFace = (face: number): Stencil => ({
  cells: new Int32Array(0),
  cellWeights: new Float64Array(0),
  faces: Int32Array.of(face),
  faceWeights: Float64Array.of(1),
})

const sumOf = (stencils: readonly Stencil[], of: (stencil: Stencil) => number): number =>
  stencils.reduce((sum, stencil) => sum + of(stencil), 0)

/** Several stencils weighed. */
function weighed(stencils: readonly Stencil[], weights: readonly number[]): Stencil {
  const cells = new Int32Array(sumOf(stencils, (stencil) => stencil.cells.length))
  const faces = new Int32Array(sumOf(stencils, (stencil) => stencil.faces.length))
  const made = {
    cells,
    cellWeights: new Float64Array(cells.length),
    faces,
    faceWeights: new Float64Array(faces.length),
  }
  let [cell, face] = [0, 0]
  for (const [index, stencil] of stencils.entries()) {
    const weight = weights[index]!
    for (let i = 0; i < stencil.cells.length; i++, cell++) {
      made.cells[cell] = stencil.cells[i]!
      made.cellWeights[cell] = weight * stencil.cellWeights[i]!
    }
    for (let i = 0; i < stencil.faces.length; i++, face++) {
      made.faces[face] = stencil.faces[i]!
      made.faceWeights[face] = weight * stencil.faceWeights[i]!
    }
  }
  return made
}

/** Nearer than this to a corner of the thermal law counts as on it, K. */
const AT_KINK_K = 1e-9

/** Reads by the stencil where no corner of the layer's law lies between its values, else node by node. */
function quickly({ read, stencil }: Reading, layer: number): PlaceReader {
  if (stencil === undefined) return read
  const { cells, cellWeights, faces, faceWeights } = stencil
  return (sample) => {
    const { data } = sample
    let lowest = Number.POSITIVE_INFINITY
    let highest = Number.NEGATIVE_INFINITY
    let sum = 0
    for (let i = 0; i < cells.length; i++) {
      const value = data[sample.cells + cells[i]!]!
      sum += cellWeights[i]! * value
      if (value < lowest) lowest = value
      if (value > highest) highest = value
    }
    for (let i = 0; i < faces.length; i++) {
      const value = data[sample.surfaces + faces[i]!]!
      sum += faceWeights[i]! * value
      if (value < lowest) lowest = value
      if (value > highest) highest = value
    }
    const kinks_C = sample.parts[layer]?.kinks_C ?? []
    for (let i = 0; i < kinks_C.length; i++)
      if (kinks_C[i]! >= lowest - AT_KINK_K && kinks_C[i]! <= highest + AT_KINK_K) return read(sample)
    // Beyond all of its values it may swing out beside a plateau.
    return sum < lowest || sum > highest ? read(sample) : sum
  }
}

/** Whether values rise or fall throughout: so does then what lies between two of them. */
function isMonotone(values: Float64Array): boolean {
  let [rises, falls] = [true, true]
  for (let i = 1; i < values.length; i++) {
    if (values[i]! < values[i - 1]!) rises = false
    if (values[i]! > values[i - 1]!) falls = false
  }
  return rises || falls
}

const clamped = (value: number, a: number, b: number): number =>
  Math.min(Math.max(value, Math.min(a, b)), Math.max(a, b))

const LOW_SURFACE = -0.25
const HIGH_SURFACE = 0.25

const conductivity = (part: TablePart, T_C: number): number => integralAt(part, T_C + 0.5) - integralAt(part, T_C - 0.5)

/** Weights at x of the polynomial through the nodes. Shape: xs */
function weightsAt(xs: readonly number[], x: number): number[] {
  return xs.map((own, i) => xs.reduce((term, other, j) => (j === i ? term : (term * (x - other)) / (own - other)), 1))
}

const replaced = (index: Index, axis: number, i: number): Index =>
  axis === 0 ? [i, index[1], index[2]] : axis === 1 ? [index[0], i, index[2]] : [index[0], index[1], i]

function createFieldReader(mesh: Mesh): FieldReader {
  const { n, axes } = mesh
  const { fan } = mesh.coordinates
  const cellOf = (index: Index): number => index[0] + n[0] * (index[1] + n[1] * index[2])
  const key = (cell: number, axis: number, high: boolean): number => (cell * 3 + axis) * 2 + (high ? 1 : 0)
  const faceOf = new Map(
    mesh.boundary.map((link, position) => [key(link.cell, link.axis, link.side === 'high'), position]),
  )
  const inside = (index: Index): Index => [Math.round(index[0]), Math.round(index[1]), Math.round(index[2])]
  const layerAt = (index: Index): number => mesh.layerOf[cellOf(inside(index))]!

  /** Reads a node: a cell's middle, its surface, or the edge between two of its surfaces. */
  const node = (index: Index): Reading => {
    const clamped = inside(index)
    const cell = cellOf(clamped)
    const out = [0, 1, 2].filter((axis) => index[axis] !== clamped[axis])
    const link = (axis: number): number | undefined => faceOf.get(key(cell, axis, index[axis]! > clamped[axis]!))
    const faces = out.flatMap((axis) => {
      const face = link(axis)
      return face === undefined ? [] : [{ axis, face }]
    })
    if (faces.length === 0) return { read: ({ data, cells }) => data[cells + cell]!, stencil: ofCell(cell) }
    if (faces.length === 1) {
      const { face } = faces[0]!
      return { read: ({ data, surfaces }) => data[surfaces + face]!, stencil: ofFace(face) }
    }
    // An edge: walk along each of its faces by the other's film, and take the mean.
    const walks = faces.map(({ axis, face }) => ({ face, beside: node(replaced(index, axis, clamped[axis]!)).read }))
    const read: PlaceReader = (sample) => {
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
    return { read }
  }

  /** Reads with the first `axis + 1` coordinates free; later axes stay at the node given in `fixed`. */
  const along = (coordinates: readonly number[], axis: number, fixed: Index, level: ReadonlySet<FaceName>): Reading => {
    if (axis < 0) return node(fixed)
    const { middles, borders, low, high, apex } = axes[axis]!
    const count = middles.length
    if (idleEnds(axes[axis]!)) return along(coordinates, axis - 1, fixed, level)
    const x = coordinates[axis]!
    const read = (i: number): Reading => along(coordinates, axis - 1, replaced(fixed, axis, i), level)
    // The layer at this place, and how far it reaches along the axis. Lower axes are taken where the place lies.
    let here = fixed
    for (let lower = 0; lower < axis; lower++) here = replaced(here, lower, cellAlong(lower, coordinates[lower]!))
    const own = cellAlong(axis, x)
    const layer = layerAt(replaced(here, axis, own))
    if (layer === NOTHING) return { read: () => Number.NaN }
    let first = own
    let last = own
    while (first > 0 && layerAt(replaced(here, axis, first - 1)) === layer) first--
    while (last < count - 1 && layerAt(replaced(here, axis, last + 1)) === layer) last++

    const contact = (i: number): Reading => {
      const lowLayer = layerAt(replaced(here, axis, i))
      const highLayer = layerAt(replaced(here, axis, i + 1))
      const lowReader = read(i).read
      const highReader = read(i + 1).read
      const cell = cellOf(inside(replaced(here, axis, i)))
      const toFace = mesh.toFace[axis]![cell]!
      const fromFace = mesh.fromFace[axis]![cell]!
      const atContact: PlaceReader = (sample) => {
        const TLow = lowReader(sample)
        const THigh = highReader(sample)
        const lowG = conductivity(sample.parts[lowLayer]!, TLow) / toFace
        const highG = conductivity(sample.parts[highLayer]!, THigh) / fromFace
        return (lowG * TLow + highG * THigh) / (lowG + highG)
      }
      return { read: atContact }
    }

    // Nodes around the place, low to high: the layer's ends and its cells. Only the chosen ones are made.
    const nodes: { readonly x: number; readonly make: () => Reading }[] = []
    const add = (position: number, make: () => Reading): void => {
      nodes.push({ x: position, make })
    }
    const from = Math.max(first, own - 2)
    const to = Math.min(last, own + 2)
    const onFan = fan !== undefined && fixed[fan.axis] !== Math.round(fixed[fan.axis]!)
    const emptyAt = (i: number): boolean => layerAt(replaced(here, axis, i)) === NOTHING
    if (from === first) {
      if (first > 0 && !emptyAt(first - 1)) add(borders[first]!, () => contact(first - 1))
      else if (first > 0 || (low !== null && !level.has(low))) add(borders[first]!, () => read(first + LOW_SURFACE))
      // Rays end at an apex, but on the face that ends their turn the course goes level through it to the other side.
      else if (!apex || onFan) for (const i of [1, 0]) if (i <= last) add(2 * borders[0]! - middles[i]!, () => read(i))
    }
    for (let i = from; i <= to; i++) add(middles[i]!, () => read(i))
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
    const readings = near.map((one) => one.make())
    const readers = readings.map((one) => one.read)
    const stencils = readings.flatMap(({ stencil }) => stencil ?? [])
    const weights = weightsAt(
      near.map((one) => one.x),
      x,
    )
    const left = right - 1 - start
    const share = Math.min(Math.max((x - near[left]!.x) / (near[left + 1]!.x - near[left]!.x), 0), 1)
    const within = x >= near[left]!.x && x <= near[left + 1]!.x
    const values = new Float64Array(near.length)
    const cubic: PlaceReader = (sample) => {
      let lowest = Number.POSITIVE_INFINITY
      let highest = Number.NEGATIVE_INFINITY
      let sum = 0
      for (let i = 0; i < readers.length; i++) {
        const value = readers[i]!(sample)
        values[i] = value
        sum += weights[i]! * value
        if (value < lowest) lowest = value
        if (value > highest) highest = value
      }
      // Across a corner of the thermal law a cubic would swing out; between two nodes a straight line never does.
      for (const kink of sample.parts[layer]!.kinks_C) {
        if (kink >= lowest - AT_KINK_K && kink <= highest + AT_KINK_K)
          return values[left]! + (values[left + 1]! - values[left]!) * share
      }
      return within && isMonotone(values) ? clamped(sum, values[left]!, values[left + 1]!) : sum
    }
    return { read: cubic, ...(stencils.length < readings.length ? {} : { stencil: weighed(stencils, weights) }) }
  }

  const cellAlong = (axis: number, x: number): number => {
    const { borders } = axes[axis]!
    let i = 0
    while (i < borders.length - 2 && borders[i + 1]! <= x) i++
    return i
  }

  const made = new Map<string, PlaceReader>()
  return {
    place(coordinates) {
      const name = coordinates.join()
      const before = made.get(name)
      if (before !== undefined) return before
      const layer = mesh.layerOf[cellAt(mesh, coordinates)]!
      // The nodes depend on which faces are level; a journey has few such sets.
      const byLevel = new Map<string, PlaceReader>()
      let last: ReadonlySet<FaceName> | undefined
      let reader: PlaceReader = () => Number.NaN
      const read: PlaceReader = (sample) => {
        const { insulated } = sample
        if (insulated !== last) {
          const level = [...insulated].sort().join()
          reader = byLevel.get(level) ?? quickly(along(coordinates, axes.length - 1, [0, 0, 0], insulated), layer)
          byLevel.set(level, reader)
          last = insulated
        }
        return reader(sample)
      }
      made.set(name, read)
      return read
    },
  }
}

/** Readers by the cells of a mesh, which runs of one job with other materials share. */
const readers = new WeakMap<Float64Array, FieldReader>()

export function fieldReader(mesh: Mesh): FieldReader {
  const made = readers.get(mesh.volume) ?? createFieldReader(mesh)
  readers.set(mesh.volume, made)
  return made
}

/** Coordinates of a cell's middle. Shape: axes */
export function middleOf(mesh: Mesh, cell: number): number[] {
  const at = cellIndices(mesh.n, cell)
  return mesh.axes.map((axis, index) => axis.middles[at[index]!]!)
}
