import type { Mesh } from '../geometry/mesh.ts'
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
  /** Elementary faces in a fixed order. */
  readonly faces: readonly string[]
  /** Part of the joined table of every cell. Shape: cells */
  readonly partOf: Int16Array
  /** Sum of the link coefficients of every cell, m. Shape: padded */
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
  const n = used.map((axis) => mesh.n[axis]!)
  const shape: [number, number, number] = [n[0]!, n[1] ?? 1, n[2] ?? 1]
  const strides = used.map((axis) => (axis === 0 ? 1 : axis === 1 ? mesh.n[0] : mesh.n[0] * mesh.n[1]))
  const padding = Math.max(...strides, 1)
  const size = mesh.cells + 2 * padding
  const allocate = (): Float64Array => new Float64Array(size)
  const partOf = mesh.layerOf.map((layer) => partOfLayer[layer]!)
  const weight = allocate()
  for (let cell = 0; cell < mesh.cells; cell++) {
    weight[padding + cell] = 1 / (mesh.volume[cell]! * table.parts[partOf[cell]!]!.enthalpyStep)
  }
  const links = used.map(allocate)
  const linkSum = allocate()
  const contacts: ContactLink[] = []
  for (const [index, axis] of used.entries()) {
    const stride = strides[index]!
    for (let cell = 0; cell < mesh.cells; cell++) {
      const area = mesh.area[axis]![cell]!
      if (area === 0) continue
      const other = cell + stride
      const lowDistance = mesh.toFace[axis]![cell]!
      const highDistance = mesh.fromFace[axis]![cell]!
      if (partOf[cell] === partOf[other]) {
        const G = area / (lowDistance + highDistance)
        links[index]![padding + cell] = G
        linkSum[padding + cell]! += G
        linkSum[padding + other]! += G
      } else {
        contacts.push({ low: padding + cell, high: padding + other, area, lowDistance, highDistance })
      }
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
  const special = Int32Array.from(
    new Set([...outer.map((link) => link.cell), ...contacts.flatMap((link) => [link.low, link.high])]),
  )
  const dimensions = used.length as 1 | 2 | 3
  return {
    mesh,
    table,
    fields: { n: shape, padding, dimensions, links, weight, values: table.values },
    outer,
    outerCell: Int32Array.from(outer, (link) => link.cell),
    outerFace: Int32Array.from(outer, (link) => link.face),
    contacts,
    contactLow: Int32Array.from(contacts, (link) => link.low),
    contactHigh: Int32Array.from(contacts, (link) => link.high),
    special,
    faces,
    partOf,
    linkSum,
    volume: mesh.volume.reduce((sum, volume) => sum + volume, 0),
    allocate,
  }
}

/** The kernel for the piece's number of dimensions. */
export const stageOf = (conduction: Conduction) => stages[conduction.fields.dimensions]

/** Conductivity of a cell at its state, W/(m K): slope of the conductivity integral over temperature. */
export function conductivityAt(values: Float64Array, u: number): number {
  // Within a change of phase at one temperature the slope over T is undefined; the interval above it serves.
  let at = (u | 0) * STRIDE
  while (values[at + 3] === 0) at += STRIDE
  return values[at + 1]! / values[at + 3]!
}
