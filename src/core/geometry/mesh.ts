import type { Body, FaceName, Place } from './body.ts'
import { carrierIndex } from './coordinates/coordinates.ts'
import { cellsFor, gradedBorders, isGraded } from './grading.ts'
import type { Layer } from './layer.ts'

/** A stretch of an axis within one layer. */
export interface Span {
  readonly from: number
  readonly to: number
  readonly cells: number
  /** Index of the lining that covers this stretch from this axis's faces; −1 inside the linings. */
  readonly lining: number
  /** Index of the fill on the stack axis; −1 on other axes and within linings. */
  readonly fill: number
}

export interface MeshAxis {
  /** Cell borders, m. Shape: cells + 1. A mirrored axis runs from the middle plane (0) to the high face. */
  readonly borders: Float64Array
  /** Cell middles, m. Shape: cells */
  readonly middles: Float64Array
  readonly spans: readonly Span[]
  /** Length of the whole axis, both halves, m. */
  readonly length: number
  readonly mirrored: boolean
  /** Elementary face at each end; null at a symmetry plane or a pole. */
  readonly low: FaceName | null
  readonly high: FaceName
}

/** A cell's outer face. */
export interface BoundaryFace {
  readonly cell: number
  readonly axis: number
  readonly side: 'low' | 'high'
  readonly face: FaceName
  /** m² of the modelled section. */
  readonly area: number
  /** From the cell's middle to the face, m. */
  readonly distance: number
}

/**
 * The piece as finite volumes: an orthogonal grid, at most one material a cell.
 * Cells are numbered i + n0 * (j + n1 * k), axis 0 fastest.
 */
export interface Mesh {
  readonly body: Body
  readonly axes: readonly MeshAxis[]
  /** Cells along axis 0, 1, 2; 1 where there is no such axis. */
  readonly n: readonly [number, number, number]
  readonly cells: number
  /** Lining (outside in), then fill (bottom up). */
  readonly layers: readonly Layer[]
  /** Index into `layers`. Shape: cells */
  readonly layerOf: Int16Array
  /** m³ of the modelled section. Shape: cells */
  readonly volume: Float64Array
  /** For each axis, of the face towards the next cell: area (0 at the end), and distances to it. Shape: axes × cells */
  readonly area: readonly Float64Array[]
  readonly toFace: readonly Float64Array[]
  readonly fromFace: readonly Float64Array[]
  readonly boundary: readonly BoundaryFace[]
  /** Whole piece over modelled section: symmetry halves and the body's measure. */
  readonly measure: number
}

/** What the mesh must know beside the layers. */
export interface MeshOptions {
  /** Cells between the middle and the surface of a plain axis. */
  readonly perHalf: number
  /** Every span gets half of its cells: the coarse partner of the grid with the same `perHalf`. */
  readonly halved: boolean
  /** Axes with one and the same course on both sides: only the high half is modelled. */
  readonly mirrored: readonly boolean[]
  /** Faces through which nothing ever passes: no fine cells there. */
  readonly insulated: ReadonlySet<FaceName>
  /** Length of the stack axis once everything is poured, m: cells of a layer don't change when another comes on it. */
  readonly stackLength: number
}

function spansOf(body: Body, axisIndex: number, lining: readonly Layer[], fill: readonly Layer[]) {
  const axis = body.axes[axisIndex]!
  const thicknesses = lining.map((layer) => layer.thickness!)
  const wall = thicknesses.reduce((sum, thickness) => sum + thickness, 0)
  const parts: { length: number; lining: number; fill: number }[] = []
  if (axis.linedLow)
    for (const [index, length] of thicknesses.entries()) parts.push({ length, lining: index, fill: -1 })
  if (body.stackAxis === axisIndex) {
    for (const [index, layer] of fill.entries()) parts.push({ length: layer.thickness!, lining: -1, fill: index })
  } else {
    const covered = (axis.linedLow ? wall : 0) + (axis.linedHigh ? wall : 0)
    parts.push({ length: axis.length - covered, lining: -1, fill: -1 })
  }
  if (axis.linedHigh)
    for (let index = thicknesses.length - 1; index >= 0; index--)
      parts.push({ length: thicknesses[index]!, lining: index, fill: -1 })
  return parts
}

function buildAxis(
  body: Body,
  axisIndex: number,
  lining: readonly Layer[],
  fill: readonly Layer[],
  options: MeshOptions,
): MeshAxis {
  const { low, high } = body.axes[axisIndex]!
  let parts = spansOf(body, axisIndex, lining, fill)
  const modelled = parts.reduce((sum, part) => sum + part.length, 0)
  const mirrored = options.mirrored[axisIndex] === true
  // A radius is already half of what it spans.
  const length = low === null ? 2 * modelled : modelled
  const wanted = body.stackAxis === axisIndex ? Math.max(length, options.stackLength) : length
  if (mirrored) {
    const middle = (parts.length - 1) / 2
    parts = parts.slice(middle).map((part, index) => (index === 0 ? { ...part, length: part.length / 2 } : part))
  }
  const lowFace = mirrored ? null : low
  const active = (face: FaceName | null): boolean => face !== null && !options.insulated.has(face)
  const idle = parts.length === 1 && !active(lowFace) && !active(high)
  const spans: Span[] = []
  const borders: number[] = [0]
  let from = 0
  for (const [index, part] of parts.entries()) {
    const grading = {
      low: index > 0 || active(lowFace),
      high: index < parts.length - 1 || active(high),
    }
    const oneSided = grading.low !== grading.high
    const full = idle && low !== null ? 1 : cellsFor(part.length, wanted, options.perHalf, oneSided)
    const cells = options.halved && full > 1 ? full / 2 : full
    const graded = isGraded(oneSided ? 2 * full : full) ? grading : { low: false, high: false }
    const to = from + part.length
    for (const border of gradedBorders(from, to, cells, graded).slice(1)) borders.push(border)
    spans.push({ from, to, cells, lining: part.lining, fill: part.fill })
    from = to
  }
  const middles = borders.slice(1).map((border, index) => (border + borders[index]!) / 2)
  return {
    borders: Float64Array.from(borders),
    middles: Float64Array.from(middles),
    spans,
    length: mirrored ? modelled : from,
    mirrored,
    low: lowFace,
    high,
  }
}

function spanOfCell(axis: MeshAxis): Span[] {
  return axis.spans.flatMap((span) => Array.from({ length: span.cells }, () => span))
}

/** The finite volumes of a body with its layers. */
export function buildMesh(body: Body, lining: readonly Layer[], fill: readonly Layer[], options: MeshOptions): Mesh {
  const axes = body.axes.map((_, index) => buildAxis(body, index, lining, fill, options))
  const count = (index: number): number => axes[index]?.middles.length ?? 1
  const n: [number, number, number] = [count(0), count(1), count(2)]
  const cells = n[0] * n[1] * n[2]
  const spans = axes.map(spanOfCell)
  const layerOf = new Int16Array(cells)
  const volume = new Float64Array(cells)
  const area = axes.map(() => new Float64Array(cells))
  const toFace = axes.map(() => new Float64Array(cells))
  const fromFace = axes.map(() => new Float64Array(cells))
  const boundary: BoundaryFace[] = []
  const { coordinates } = body

  for (let cell = 0; cell < cells; cell++) {
    const at = cellIndices(n, cell)
    const box = {
      low: axes.map((axis, index) => axis.borders[at[index]!]!),
      high: axes.map((axis, index) => axis.borders[at[index]! + 1]!),
    }
    volume[cell] = coordinates.volume(box)
    let outermost = -1
    let filling = 0
    for (const [index, cellSpans] of spans.entries()) {
      const span = cellSpans[at[index]!]!
      if (span.lining >= 0 && (outermost < 0 || span.lining < outermost)) outermost = span.lining
      if (span.fill >= 0) filling = span.fill
    }
    layerOf[cell] = outermost >= 0 ? outermost : lining.length + filling
    for (const [index, axis] of axes.entries()) {
      const i = at[index]!
      const middle = axis.middles[i]!
      const lowDistance = coordinates.distance(index, axis.borders[i]!, middle, box)
      const highDistance = coordinates.distance(index, middle, axis.borders[i + 1]!, box)
      const highArea = coordinates.area(index, axis.borders[i + 1]!, box)
      if (i === 0 && axis.low !== null) {
        const lowArea = coordinates.area(index, axis.borders[0]!, box)
        boundary.push({ cell, axis: index, side: 'low', face: axis.low, area: lowArea, distance: lowDistance })
      }
      if (i < axis.middles.length - 1) {
        area[index]![cell] = highArea
        toFace[index]![cell] = highDistance
        fromFace[index]![cell] = coordinates.distance(index, axis.borders[i + 1]!, axis.middles[i + 1]!, box)
      } else {
        boundary.push({ cell, axis: index, side: 'high', face: axis.high, area: highArea, distance: highDistance })
      }
    }
  }
  const halves = axes.reduce((product, axis) => product * (axis.mirrored ? 2 : 1), 1)
  return {
    body,
    axes,
    n,
    cells,
    layers: [...lining, ...fill],
    layerOf,
    volume,
    area,
    toFace,
    fromFace,
    boundary,
    measure: body.measure * halves,
  }
}

/** Index along each axis of a cell. */
export function cellIndices(n: readonly [number, number, number], cell: number): [number, number, number] {
  const row = Math.floor(cell / n[0])
  return [cell % n[0], row % n[1], Math.floor(row / n[1])]
}

/** Size of the bounding box, m, for x, y, z; 0 for a direction that isn't modelled. */
export function boundingBox(mesh: Mesh): [number, number, number] {
  const size: [number, number, number] = [0, 0, 0]
  for (const [index, axis] of mesh.axes.entries()) {
    const { carries, low } = mesh.body.axes[index]!
    // A radius spans twice its length, in every direction of its turn.
    if (low !== null) size[carrierIndex[carries]] = axis.length
    else if (mesh.body.coordinates.name === 'sphere') size.fill(2 * axis.length)
    else size[0] = size[2] = 2 * axis.length
  }
  return size
}

const carriersOf = (mesh: Mesh) => mesh.body.axes.map((axis) => axis.carries)
const lengthsOf = (mesh: Mesh) => mesh.axes.map((axis) => axis.length)

/** Mesh coordinates (mirrored axes folded) of a place given as shares of the bounding box. */
export function locate(mesh: Mesh, place: Place): number[] {
  const size = boundingBox(mesh)
  const at = mesh.body.coordinates.locate(
    [(place.x - 0.5) * size[0], (place.y - 0.5) * size[1], (place.z - 0.5) * size[2]],
    lengthsOf(mesh),
    carriersOf(mesh),
  )
  return at.map((coordinate, index) => {
    const axis = mesh.axes[index]!
    const folded = axis.mirrored ? Math.abs(coordinate - axis.length / 2) : coordinate
    return Math.min(Math.max(folded, axis.borders[0]!), axis.borders[axis.borders.length - 1]!)
  })
}

/** The place (shares of the bounding box) of mesh coordinates; of mirrored ones the half towards the high face. */
export function placeOf(mesh: Mesh, at: readonly number[]): Place {
  const size = boundingBox(mesh)
  const unfolded = at.map((coordinate, index) => {
    const axis = mesh.axes[index]!
    return axis.mirrored ? coordinate + axis.length / 2 : coordinate
  })
  const offset = mesh.body.coordinates.offset(unfolded, lengthsOf(mesh), carriersOf(mesh))
  const share = (index: 0 | 1 | 2): number => (size[index] === 0 ? 0.5 : 0.5 + offset[index] / size[index])
  return { x: share(0), y: share(1), z: share(2) }
}
