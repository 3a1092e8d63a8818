import { type AirRoom, findRooms } from './air-rooms.ts'
import type { Body, FaceName, Place } from './body.ts'
import type { Bounds, Box, Coordinates, Point } from './coordinates/coordinates.ts'
import { type Form, layersOf } from './form.ts'
import type { Layer } from './layer.ts'
import { divideAxis, idleAlong, type MeshAxis } from './mesh-axis.ts'
import { refuseGiant } from './most-cells.ts'
import { type JoinedCells, joinAtPole, meanDepth } from './pole.ts'

export type { MeshAxis } from './mesh-axis.ts'

/** A cell's outer face. */
export interface BoundaryFace {
  readonly cell: number
  readonly axis: number
  readonly side: 'low' | 'high'
  readonly face: FaceName
  /** m² of the modelled body. */
  readonly area: number
  /** From the cell's middle to the face, m. */
  readonly distance: number
}

/** Index of a cell in which nothing is, in place of its layer's. */
export const NOTHING = -1

/**
 * The piece as finite volumes: a structured grid, at most one material a cell.
 * Cells are numbered i + n0 * (j + n1 * k), axis 0 fastest.
 */
export interface Mesh {
  readonly body: Body
  readonly coordinates: Coordinates
  readonly axes: readonly MeshAxis[]
  /** Cells along axis 0, 1, 2; 1 where there is no such axis. */
  readonly n: readonly [number, number, number]
  readonly cells: number
  /** Lining (outside in), then fill (bottom up), then coats (inside out). */
  readonly layers: readonly Layer[]
  /** Index into `layers`, or NOTHING. Shape: cells */
  readonly layerOf: Int16Array
  /** The layer of air in a cell in which nothing is, or NOTHING. Shape: cells */
  readonly airOf: Int16Array
  /** m³ of the modelled body; 0 where nothing is. Shape: cells */
  readonly volume: Float64Array
  /** For each axis, of the face towards the next cell: area (0 at the end), and distances to it. Shape: axes × cells */
  readonly area: readonly Float64Array[]
  readonly toFace: readonly Float64Array[]
  readonly fromFace: readonly Float64Array[]
  /**
   * Of the corner between a cell and its upper neighbours along axes 0 and 1: what the axes' slant takes from the links
   * at that corner and gives to the link across it, m. Absent where axes are square. Shape: cells
   */
  readonly slant?: Float64Array
  /** Cells near a pole that act as one, as lists of cells. */
  readonly joined: readonly (readonly number[])[]
  readonly boundary: readonly BoundaryFace[]
  /** Rooms of air within the piece, across which heat passes. */
  readonly rooms: readonly AirRoom[]
  /** Whole piece over modelled body: symmetry halves, pieces alike, and the body's measure. */
  readonly measure: number
  /** Box to whose shares places refer, and the coordinates that it spans. */
  readonly reference: Reference
}

/** The whole piece with everything that is ever on it. */
export interface Reference {
  readonly bounds: Bounds
  readonly box: Box
}

/** What the mesh must know beside the form. */
export interface MeshOptions {
  /** Cells between the middle and the surface of a plain axis. */
  readonly perHalf: number
  /** Every stretch gets half of its cells: the coarse partner of the grid with the same `perHalf`. */
  readonly halved: boolean
  /** Axes with one and the same course on both sides: only the high half is modelled. */
  readonly mirrored: readonly boolean[]
  /** Faces through which nothing ever passes: no fine cells there. */
  readonly insulated: ReadonlySet<FaceName>
  readonly reference: Reference
}

/** The region that owns each combination of stretches; all cells of a stretch have the same. */
function ownersOf(form: Form, axes: readonly MeshAxis[], layers: readonly Layer[]) {
  const holds = axes.map((axis, index) =>
    Array.from(axis.middles, (at) => form.regions.map((region) => at > region.low[index]! && at < region.high[index]!)),
  )
  return (at: readonly number[]): number => {
    for (let region = form.regions.length - 1; region >= 0; region--) {
      if (!axes.every((_, axis) => holds[axis]![at[axis]!]![region])) continue
      return layers.indexOf(form.regions[region]!.layer)
    }
    return NOTHING
  }
}

/** Distance from a cell's middle to its outer face when the piece is mixed all the time: as good as none, m. */
const MIXED_WAY = 1e-6

/** The finite volumes of a form. Throws: `PlanError` where they would be too many. */
export function buildMesh(form: Form, options: MeshOptions): Mesh {
  const { body, coordinates } = form
  const { reference } = options
  const finalLength = (axis: number): number =>
    coordinates.distance(axis, reference.box.low[axis]!, reference.box.high[axis]!, reference.box)
  const axes = body.axes.map(({ low }, axis) =>
    divideAxis(form, axis, {
      perHalf: options.perHalf,
      halved: options.halved,
      mirrored: options.mirrored[axis] === true && !idleAlong(form, axis),
      insulated: options.insulated,
      finalLength: (low === null && form.ends[axis]!.low === null ? 2 : 1) * finalLength(axis),
    }),
  )
  const count = (index: number): number => axes[index]?.middles.length ?? 1
  const n: [number, number, number] = [count(0), count(1), count(2)]
  const cells = n[0] * n[1] * n[2]
  refuseGiant(cells)
  const layers = layersOf(form)
  const owner = ownersOf(form, axes, layers)
  const ownerOf = Int16Array.from({ length: cells }, (_, cell) => owner(cellIndices(n, cell)))
  const isAir = (layer: number): boolean => layers[layer]?.material.empty === true
  const layerOf = ownerOf.map((layer) => (isAir(layer) ? NOTHING : layer))
  const airOf = ownerOf.map((layer) => (isAir(layer) ? layer : NOTHING))
  const volume = new Float64Array(cells)
  const area = axes.map(() => new Float64Array(cells))
  const toFace = axes.map(() => new Float64Array(cells))
  const fromFace = axes.map(() => new Float64Array(cells))
  const boundary: BoundaryFace[] = []
  const boxOf = (at: readonly number[]): Box => ({
    low: axes.map((axis, index) => axis.borders[at[index]!]!),
    high: axes.map((axis, index) => axis.borders[at[index]! + 1]!),
  })
  const strides = [1, n[0], n[0] * n[1]]

  for (let cell = 0; cell < cells; cell++) {
    if (layerOf[cell] === NOTHING) continue
    const at = cellIndices(n, cell)
    const box = boxOf(at)
    volume[cell] = coordinates.volume(box)
    for (const [index, axis] of axes.entries()) {
      const i = at[index]!
      const last = axis.middles.length - 1
      const middle = axis.middles[i]!
      const stride = strides[index]!
      const there = (other: number): boolean => layerOf[other] !== NOTHING
      const face = (side: 'low' | 'high', border: number): void => {
        const outermost = side === 'low' ? i === 0 : i === last
        const own = body.axes[index]!
        // A step in the outline shows the same face as the end on that side.
        const name = outermost ? axis[side] : own[side]
        if (name === null) return
        const distance = body.mixed
          ? MIXED_WAY
          : side === 'low'
            ? coordinates.distance(index, border, middle, box)
            : coordinates.distance(index, middle, border, box)
        boundary.push({ cell, axis: index, side, face: name, area: coordinates.area(index, border, box), distance })
      }
      const air = (other: number): boolean => airOf[other] !== NOTHING
      if (i === 0 || !there(cell - stride)) {
        if (i === 0 || !air(cell - stride)) face('low', axis.borders[i]!)
      }
      if (i === last || !there(cell + stride)) {
        if (i === last || !air(cell + stride)) face('high', axis.borders[i + 1]!)
      } else {
        const next = boxOf(at.map((k, other) => (other === index ? k + 1 : k)))
        area[index]![cell] = coordinates.area(index, axis.borders[i + 1]!, box)
        toFace[index]![cell] = coordinates.distance(index, middle, axis.borders[i + 1]!, box)
        fromFace[index]![cell] = coordinates.distance(index, axis.borders[i + 1]!, axis.middles[i + 1]!, next)
      }
    }
  }
  const halves = axes.reduce((product, axis) => product * (axis.mirrored ? 2 : 1), 1)
  const joined = joinAtPole(coordinates, axes, n, layerOf)
  const { fan } = coordinates
  if (fan !== undefined) centreJoined(joined, fan.axis, strides[fan.axis]!, volume, toFace, fromFace, boundary)
  const link = (axis: 0 | 1, cell: number): number =>
    area[axis]![cell]! / (toFace[axis]![cell]! + fromFace[axis]![cell]!)
  const slant = slantOf(coordinates, axes, n, layerOf, link)
  const rooms = airOf.every((layer) => layer === NOTHING)
    ? []
    : findRooms(
        {
          coordinates,
          axes,
          n,
          layers,
          airOf,
          there: (cell) => layerOf[cell] !== NOTHING,
          indicesOf: (cell) => cellIndices(n, cell),
          boxOf,
          stackAxis: body.stackAxis,
        },
        reference.bounds.high[1] - reference.bounds.low[1],
      )
  return {
    body,
    coordinates,
    axes,
    n,
    cells,
    layers,
    layerOf,
    airOf,
    volume,
    area,
    toFace,
    fromFace,
    ...(slant === undefined ? {} : { slant }),
    joined: joined.map(({ ring }) => ring.map(({ cell }) => cell)),
    boundary,
    rooms,
    measure: body.measure * halves * form.pieces,
    reference,
  }
}

/** Heat leaves a group of joined cells from the middle of all. */
function centreJoined(
  joined: readonly JoinedCells[],
  fan: number,
  stride: number,
  volume: Float64Array,
  toFace: readonly Float64Array[],
  fromFace: readonly Float64Array[],
  boundary: BoundaryFace[],
): void {
  const ends = new Map<number, number>()
  for (const group of joined) {
    const [first, last] = [group.ring[0]!, group.ring[group.ring.length - 1]!]
    const toLast = meanDepth(group, last.high, volume)
    toFace[fan]![last.cell] = toLast
    if (fromFace[fan]![first.cell - stride]! > 0)
      fromFace[fan]![first.cell - stride] = meanDepth(group, first.low, volume)
    ends.set(last.cell, toLast)
  }
  for (const [index, face] of boundary.entries()) {
    const distance = ends.get(face.cell)
    if (face.axis === fan && face.side === 'high' && distance !== undefined) boundary[index] = { ...face, distance }
  }
}

/** Most of the mean of two links that their slant may be; at 1 heat would flow neither way. */
const DOWNHILL = 0.95

/** The slant of every corner between four cells of one material. */
function slantOf(
  coordinates: Coordinates,
  axes: readonly MeshAxis[],
  n: readonly [number, number, number],
  layerOf: Int16Array,
  link: (axis: 0 | 1, cell: number) => number,
): Float64Array | undefined {
  if (coordinates.skew === undefined || axes.length < 2) return undefined
  const slant = new Float64Array(layerOf.length)
  let any = false
  for (let cell = 0; cell < layerOf.length; cell++) {
    const at = cellIndices(n, cell)
    if (at[0] === n[0] - 1 || at[1] === n[1] - 1) continue
    const own = layerOf[cell]!
    if (own === NOTHING || [cell + 1, cell + n[0], cell + n[0] + 1].some((other) => layerOf[other] !== own)) continue
    const box = {
      low: axes.map((axis, index) => axis.borders[at[index]!]!),
      high: axes.map((axis, index) => axis.borders[at[index]! + 1]!),
    }
    // In each of the corner's two triangles heat must flow downhill on the whole, however coarse the cells.
    const lower = Math.sqrt(link(0, cell) * link(1, cell))
    const upper = Math.sqrt(link(0, cell + n[0]) * link(1, cell + 1))
    slant[cell] = Math.min(coordinates.skew([box.high[0]!, box.high[1]!], box), DOWNHILL * Math.min(lower, upper))
    any ||= slant[cell]! > 0
  }
  return any ? slant : undefined
}

/** Whether an axis has but one cell and nothing at its ends. */
export const idleEnds = ({ middles, low, high, mirrored }: MeshAxis): boolean =>
  middles.length === 1 && low === null && high === null && !mirrored

/** Cells in which something is, in order. */
export const cellsThere = ({ layerOf }: Mesh): number[] =>
  Array.from(layerOf.keys()).filter((cell) => layerOf[cell] !== NOTHING)

/** Index along each axis of a cell. */
export function cellIndices(n: readonly [number, number, number], cell: number): [number, number, number] {
  const row = Math.floor(cell / n[0])
  return [cell % n[0], row % n[1], Math.floor(row / n[1])]
}

/** The cell that holds mesh coordinates; beyond the ends the outermost. */
export function cellAt(mesh: Mesh, coordinates: readonly number[]): number {
  let cell = 0
  let stride = 1
  for (const [index, axis] of mesh.axes.entries()) {
    let i = 0
    while (i < axis.middles.length - 1 && axis.borders[i + 1]! <= coordinates[index]!) i++
    cell += i * stride
    stride *= axis.middles.length
  }
  return cell
}

/** Size of the box to whose shares places refer, m, for x, y, z. */
export function boundingBox({ reference }: Mesh): [number, number, number] {
  const { low, high } = reference.bounds
  return [high[0] - low[0], high[1] - low[1], high[2] - low[2]]
}

/** Mesh coordinates (mirrored axes folded) of a place given as shares of the bounding box. */
export function locate(mesh: Mesh, place: Place): number[] {
  const { bounds, box } = mesh.reference
  const y = mesh.body.invertedAtStart === true ? 1 - place.y : place.y
  const [low, high] = [bounds.low, bounds.high]
  const point: Point = [
    low[0] + place.x * (high[0] - low[0]),
    low[1] + y * (high[1] - low[1]),
    low[2] + place.z * (high[2] - low[2]),
  ]
  const at = mesh.coordinates.fromSpace(point)
  return mesh.axes.map((axis, index) => {
    const within = Math.min(Math.max(at[index]!, box.low[index]!), box.high[index]!)
    const centre = (axis.from + axis.to) / 2
    return axis.mirrored ? centre + Math.abs(within - centre) : within
  })
}

/** The place (shares of the bounding box) of mesh coordinates; of mirrored ones the half towards the high face. */
export function placeOf(mesh: Mesh, at: readonly number[]): Place {
  const { low, high } = mesh.reference.bounds
  const point = mesh.coordinates.toSpace(at)
  const share = (index: 0 | 1 | 2): number =>
    high[index] === low[index] ? 0.5 : (point[index] - low[index]) / (high[index] - low[index])
  const y = share(1)
  return { x: share(0), y: mesh.body.invertedAtStart === true ? 1 - y : y, z: share(2) }
}

/** Depth of mesh coordinates below the nearest outer face, m. A mirrored axis counts from its high face alone. */
export function depthOf(mesh: Mesh, at: readonly number[]): number {
  const { coordinates } = mesh
  let depth = Number.POSITIVE_INFINITY
  for (const [index, axis] of mesh.axes.entries()) {
    const way = (end: number): number => coordinates.depth?.(index, end, at) ?? Math.abs(end - at[index]!)
    const last = axis.borders.length - 1
    const [first, end] = mesh.body.tiers === undefined ? [0, last] : reachOf(mesh, index, at)
    if (axis.low !== null || first > 0) depth = Math.min(depth, way(axis.borders[first]!))
    if (axis.high !== null || end < last) depth = Math.min(depth, way(axis.borders[end]!))
  }
  return Number.isFinite(depth) ? Math.max(0, depth) : 0
}

/** Indices of the borders between which the piece goes on along an axis around a place. */
function reachOf(mesh: Mesh, axis: number, at: readonly number[]): [number, number] {
  const stride = [1, mesh.n[0], mesh.n[0] * mesh.n[1]][axis]!
  const cell = cellAt(mesh, at)
  const own = cellIndices(mesh.n, cell)[axis]!
  const there = (i: number): boolean => mesh.layerOf[cell + (i - own) * stride] !== NOTHING
  let [first, end] = [own, own + 1]
  while (first > 0 && there(first - 1)) first--
  while (end < mesh.axes[axis]!.middles.length && there(end)) end++
  return [first, end]
}
