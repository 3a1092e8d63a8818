import { type Mesh, NOTHING } from '../geometry/mesh.ts'
import { type AirRooms, prepareRooms } from './air-rooms.ts'
import { type Fields, stages } from './stage.ts'
import { STRIDE, type TablePart, type ThermalTable } from './thermal-table.ts'

/** An outer face of a cell, in the padded numbering. */
export interface OuterLink {
  readonly cell: number
  readonly part: TablePart
  /** Index into the list of elementary faces. */
  readonly face: number
  readonly axis: number
  readonly area: number
  readonly distance: number
}

/** A contact between two cells of different materials; the conductivity integral jumps there, temperature doesn't. */
export interface ContactLink {
  readonly low: number
  readonly high: number
  readonly axis: number
  readonly area: number
  readonly lowDistance: number
  readonly highDistance: number
}

/**
 * Cells whose conductivity follows from their state: within their layers the links are in W/K and S is the temperature.
 * Renewed whenever the films are.
 */
export interface RenewedLinks {
  /** Whether a cell is one of them, padded numbering. */
  readonly holds: (cell: number) => boolean
  /** By how much an error of a cell counts: less where it has no effect on the rest. Shape: padded */
  readonly errorShare: Float64Array
  /** Least slope of temperature over table place that a cell may have within the step, K. Shape: padded */
  readonly leastSlope: Float64Array
  /** How far beyond its new temperature a cell would be thrown if a step were accepted that ends in `y`, K. */
  overshoot(y: Float64Array): number
  /** Takes in the state of the cells at table places `y`. */
  look(y: Float64Array): void
  /** Writes the links of its layers. Shape: directions × padded */
  write(links: readonly Float64Array[]): void
  /** m² K/W from a cell's middle to its outer face. */
  outerResistance(link: Pick<OuterLink, 'cell' | 'axis' | 'distance'>): number
  /** m² of an outer face as it is now. */
  outerArea(link: OuterLink): number
  /** m² K/W from a cell's middle to a contact. */
  contactResistance(cell: number, contact: ContactLink): number
  contactArea(contact: ContactLink): number
}

/** What a layer's cells start as, and what they share. */
export interface LayerPart {
  /** Part of the table of its cells at first. */
  readonly part: number
  /** Cells of one material, whatever their part: their conductivity integrals are one function of temperature. */
  readonly material: number
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
  /** Rooms of air within the piece; absent where there are none. */
  readonly rooms?: AirRooms
  /** Cells that have an outer or contact link or face a room, each once, padded numbering. */
  readonly special: Int32Array
  /** Cells near a pole that act as one, as lists in the padded numbering. */
  readonly joined: readonly Int32Array[]
  /** Elementary faces in a fixed order. */
  readonly faces: readonly string[]
  /** What each layer's cells started as. Shape: mesh.layers */
  readonly layers: readonly LayerPart[]
  /** Part of the joined table of every cell; changed by `changePart` alone. Shape: cells */
  readonly partOf: Int16Array
  /** Links that are renewed with the state of their cells; absent where no cell has such. */
  readonly renewed?: RenewedLinks
  /** Whether cells remember the furthest temperature that they have been at. */
  readonly remembers: boolean
  /** Sum of the link coefficients of every cell, m; 0 for the cells of a group. Shape: padded */
  readonly linkSum: Float64Array
  /** Factor on the conductivity of every cell: 1 but where currents help; its links have it already. Shape: padded */
  readonly gain: Float64Array
  /** m³ of the modelled section. */
  readonly volume: number
  /** Padded array filled with zeros. */
  allocate(): Float64Array
}

/**
 * @param layers  Shape: mesh.layers
 * @param remembers  whether cells remember the furthest temperature that they have been at
 * @param renew  makes the links that are renewed with the state of cells, where there are any; given the axes that have
 *   links, in the order of the directions
 * @param turned  whether the piece lies upside down, as against the start
 */
export function prepare(
  mesh: Mesh,
  table: ThermalTable,
  layers: readonly LayerPart[],
  remembers = false,
  renew?: (axes: readonly number[], padding: number) => RenewedLinks | undefined,
  turned: () => boolean = () => false,
): Conduction {
  const active = [0, 1, 2].filter((axis) => (mesh.n[axis] ?? 1) > 1)
  const used = active.length === 0 ? [0] : active
  const strides = used.map((axis) => (axis === 0 ? 1 : axis === 1 ? mesh.n[0] : mesh.n[0] * mesh.n[1]))
  // Across a corner: from the cell after this one to the cell above it.
  if (mesh.slant !== undefined) strides.push(mesh.n[0] - 1)
  const padding = Math.max(...strides, 1)
  const size = mesh.cells + 2 * padding
  const allocate = (): Float64Array => new Float64Array(size)
  // A cell in which nothing is has no weight; the table's first part keeps its place meaningful.
  const partOf = mesh.layerOf.map((layer) => (layer === NOTHING ? 0 : layers[layer]!.part))
  const materialOf = (cell: number): number => layers[mesh.layerOf[cell]!]!.material
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
      if (materialOf(cell) === materialOf(other)) links[index]![padding + cell] = area / (lowDistance + highDistance)
      else contacts.push({ low: padding + cell, high: padding + other, axis, area, lowDistance, highDistance })
    }
  }
  slantLinks(mesh.slant, () => 1, mesh.n[0], padding, links)
  const faces = [...new Set(mesh.boundary.map((link) => link.face))]
  const outer = mesh.boundary.map((link) => ({
    cell: padding + link.cell,
    part: table.parts[partOf[link.cell]!]!,
    face: faces.indexOf(link.face),
    axis: link.axis,
    area: link.area,
    distance: link.distance,
  }))
  const joined = mesh.joined.map((cells) => Int32Array.from(cells, (cell) => padding + cell))
  const rooms = mesh.rooms.length === 0 ? undefined : prepareRooms(mesh, padding, turned)
  const special = Int32Array.from(
    new Set([
      ...outer.map((link) => link.cell),
      ...contacts.flatMap((link) => [link.low, link.high]),
      ...(rooms?.cell ?? []),
    ]),
  )
  const renewed = renew?.(used, padding)
  const directions = strides.length as 1 | 2 | 3 | 4
  const conduction: Conduction = {
    mesh,
    table,
    fields: { padding, directions, strides, links, weight, values: table.values },
    outer,
    outerCell: Int32Array.from(outer, (link) => link.cell),
    outerFace: Int32Array.from(outer, (link) => link.face),
    contacts,
    contactLow: Int32Array.from(contacts, (link) => link.low),
    contactHigh: Int32Array.from(contacts, (link) => link.high),
    ...(rooms === undefined ? {} : { rooms }),
    special,
    joined,
    faces,
    layers,
    partOf,
    ...(renewed === undefined ? {} : { renewed }),
    remembers,
    linkSum: allocate(),
    gain: allocate().fill(1),
    volume: mesh.volume.reduce((sum, volume) => sum + volume, 0),
    allocate,
  }
  sumLinks(conduction)
  return conduction
}

/** Sums the links of every cell; a group near a pole is bounded as a whole, by its outward links: see the stepper. */
export function sumLinks({ mesh, fields, joined, linkSum }: Conduction): void {
  const { links, strides, padding } = fields
  linkSum.fill(0)
  for (let direction = 0; direction < links.length; direction++) {
    const link = links[direction]!
    const stride = strides[direction]!
    for (let i = padding; i < padding + mesh.cells; i++) {
      const G = Math.abs(link[i]!)
      if (G === 0) continue
      linkSum[i] = linkSum[i]! + G
      linkSum[i + stride] = linkSum[i + stride]! + G
    }
  }
  for (const cells of joined) for (const cell of cells) linkSum[cell] = 0
}

/** Moves a cell (of the mesh's numbering) to another part of its material. */
export function changePart({ partOf, fields, mesh, table }: Conduction, cell: number, part: number): void {
  partOf[cell] = part
  fields.weight[fields.padding + cell] = 1 / (mesh.volume[cell]! * table.parts[part]!.enthalpyStep)
}

/**
 * Slanting axes: the product of both slopes in the stored form of the gradient, written as a link across the corner
 * (a b = (a² + b² − (a − b)²)/2) that takes as much from the four links around it.
 * @param slant  Shape: cells
 * @param per  what a metre of slant counts for at a corner: 1, or a conductivity
 */
export function slantLinks(
  slant: Float64Array | undefined,
  per: (corner: number) => number,
  row: number,
  padding: number,
  links: readonly Float64Array[],
): void {
  if (slant === undefined) return
  const [alongRow, upward, across] = [links[0]!, links[1]!, links[links.length - 1]!]
  for (let cell = 0; cell < slant.length; cell++) {
    if (slant[cell] === 0) continue
    const s = slant[cell]! * per(cell)
    const i = padding + cell
    across[i + 1] = s
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
