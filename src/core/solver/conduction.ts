import { type Mesh, NOTHING } from '../geometry/mesh.ts'
import { type Fields, stages } from './stage.ts'
import { STRIDE, type TablePart, type ThermalTable } from './thermal-table.ts'

/** An outer face of a cell, in the padded numbering. */
export interface OuterLink {
  readonly cell: number
  readonly part: TablePart
  /** Index into the list of elementary faces. */
  readonly face: number
  readonly area: number
  readonly distance: number
}

/** A contact between two cells of different materials; the conductivity integral jumps there, temperature doesn't. */
export interface ContactLink {
  readonly low: number
  readonly high: number
  readonly area: number
  readonly lowDistance: number
  readonly highDistance: number
}

/** Mesh and tables made ready for the kernels: fixed while the piece keeps its form. */
export interface Conduction {
  readonly mesh: Mesh
  readonly table: ThermalTable
  readonly fields: Fields
  readonly outer: readonly OuterLink[]
  /** Cell and face of every outer link, flat for the stage loop. Shape of both: outer */
  readonly outerCell: Int32Array
  readonly outerFace: Int32Array
  readonly contacts: readonly ContactLink[]
  /** Both cells of every contact, flat for the stage loop. Shape of both: contacts */
  readonly contactLow: Int32Array
  readonly contactHigh: Int32Array
  /** Cells that have an outer or contact link, each once, padded numbering. */
  readonly special: Int32Array
  /** Cells near a pole that act as one, as lists in the padded numbering. */
  readonly joined: readonly Int32Array[]
  /** Elementary faces in a fixed order. */
  readonly faces: readonly string[]
  /** Part of the joined table of every cell. Shape: cells */
  readonly partOf: Int16Array
  /** Sum of the link coefficients of every cell, m; 0 for the cells of a group. Shape: padded */
  readonly linkSum: Float64Array
  /** m³ of the modelled section. */
  readonly volume: number
  /** Padded array filled with zeros. */
  allocate(): Float64Array
}

/**
 * @param partOfLayer  part of the table for every layer of the mesh. Shape: mesh.layers
 */
export function prepare(mesh: Mesh, table: ThermalTable, partOfLayer: readonly number[]): Conduction {
  const active = [0, 1, 2].filter((axis) => (mesh.n[axis] ?? 1) > 1)
  const used = active.length === 0 ? [0] : active
  const strides = used.map((axis) => (axis === 0 ? 1 : axis === 1 ? mesh.n[0] : mesh.n[0] * mesh.n[1]))
  // Across a corner: from the cell after this one to the cell above it.
  if (mesh.slant !== undefined) strides.push(mesh.n[0] - 1)
  const padding = Math.max(...strides, 1)
  const size = mesh.cells + 2 * padding
  const allocate = (): Float64Array => new Float64Array(size)
  // A cell in which nothing is has no weight; the table's first part keeps its place meaningful.
  const partOf = mesh.layerOf.map((layer) => (layer === NOTHING ? 0 : partOfLayer[layer]!))
  const weight = allocate()
  for (let cell = 0; cell < mesh.cells; cell++) {
    if (mesh.layerOf[cell] === NOTHING) continue
    weight[padding + cell] = 1 / (mesh.volume[cell]! * table.parts[partOf[cell]!]!.enthalpyStep)
  }
  const links = strides.map(allocate)
  const contacts: ContactLink[] = []
  for (const [index, axis] of used.entries()) {
    const stride = strides[index]!
    for (let cell = 0; cell < mesh.cells; cell++) {
      const area = mesh.area[axis]?.[cell] ?? 0
      if (area === 0) continue
      const other = cell + stride
      const lowDistance = mesh.toFace[axis]![cell]!
      const highDistance = mesh.fromFace[axis]![cell]!
      if (partOf[cell] === partOf[other]) links[index]![padding + cell] = area / (lowDistance + highDistance)
      else contacts.push({ low: padding + cell, high: padding + other, area, lowDistance, highDistance })
    }
  }
  if (mesh.slant !== undefined) slantLinks(mesh.slant, mesh.n[0], padding, links)
  const linkSum = allocate()
  for (const [direction, link] of links.entries()) {
    const stride = strides[direction]!
    for (let i = padding; i < padding + mesh.cells; i++) {
      const G = Math.abs(link[i]!)
      linkSum[i] = linkSum[i]! + G
      if (G > 0) linkSum[i + stride] = linkSum[i + stride]! + G
    }
  }
  const faces = [...new Set(mesh.boundary.map((link) => link.face))]
  const outer = mesh.boundary.map((link) => ({
    cell: padding + link.cell,
    part: table.parts[partOf[link.cell]!]!,
    face: faces.indexOf(link.face),
    area: link.area,
    distance: link.distance,
  }))
  const joined = mesh.joined.map((cells) => Int32Array.from(cells, (cell) => padding + cell))
  const special = Int32Array.from(
    new Set([...outer.map((link) => link.cell), ...contacts.flatMap((link) => [link.low, link.high])]),
  )
  // A group is bounded as a whole, by its outward links: see the stepper.
  for (const cells of joined) for (const cell of cells) linkSum[cell] = 0
  const directions = strides.length as 1 | 2 | 3 | 4
  return {
    mesh,
    table,
    fields: { padding, directions, strides, links, weight, values: table.values },
    outer,
    outerCell: Int32Array.from(outer, (link) => link.cell),
    outerFace: Int32Array.from(outer, (link) => link.face),
    contacts,
    contactLow: Int32Array.from(contacts, (link) => link.low),
    contactHigh: Int32Array.from(contacts, (link) => link.high),
    special,
    joined,
    faces,
    partOf,
    linkSum,
    volume: mesh.volume.reduce((sum, volume) => sum + volume, 0),
    allocate,
  }
}

/**
 * Slanting axes: the product of both slopes in the stored form of the gradient, written as a link across the corner
 * (a b = (a² + b² − (a − b)²)/2) that takes as much from the four links around it.
 */
function slantLinks(slant: Float64Array, row: number, padding: number, links: readonly Float64Array[]): void {
  const [alongRow, upward, across] = [links[0]!, links[1]!, links[links.length - 1]!]
  for (let cell = 0; cell < slant.length; cell++) {
    const s = slant[cell]!
    if (s === 0) continue
    const i = padding + cell
    across[i + 1] = across[i + 1]! + s
    alongRow[i] = alongRow[i]! - s / 2
    alongRow[i + row] = alongRow[i + row]! - s / 2
    upward[i] = upward[i]! - s / 2
    upward[i + 1] = upward[i + 1]! - s / 2
  }
}

/** The kernel for the piece's number of directions. */
export const stageOf = (conduction: Conduction) => stages[conduction.fields.directions]

/** Conductivity of a cell at its state, W/(m K): slope of the conductivity integral over temperature. */
export function conductivityAt(values: Float64Array, u: number): number {
  // Within a change of phase at one temperature the slope over T is undefined; the interval above it serves.
  let at = (u | 0) * STRIDE
  while (values[at + 3] === 0) at += STRIDE
  return values[at + 1]! / values[at + 3]!
}

/** Writes the temperature of every cell, °C, into `target` from `offset` on; NaN where nothing is. */
export function temperaturesOf(
  { mesh, fields }: Conduction,
  y: Float64Array,
  target: Float64Array,
  offset: number,
): Float64Array {
  const { padding, values } = fields
  for (let cell = 0; cell < mesh.cells; cell++) {
    const u = y[padding + cell]!
    const at = (u | 0) * STRIDE
    target[offset + cell] = mesh.layerOf[cell] === NOTHING ? Number.NaN : values[at + 2]! + values[at + 3]! * u
  }
  return target
}
