import type { Mesh } from '../geometry/mesh.ts'
import { type RenewedLinks, slantLinks } from '../solver/conduction.ts'
import { STRIDE } from '../solver/thermal-table.ts'
import type { BakeCells } from './bake-cells.ts'

/*
 * Links of baking cells. A cell's half is the resistance from its middle to its face; a partly dried cell is divided
 * by the front: crust towards the outside and towards drier cells, moist mass, with the temperature of its middle, on
 * the other side. Risen rows are longer along the stack axis and have larger sides.
 */

/** A cell never has less of its moist part than this for its own resistance: two of them would touch without any. */
const LEAST_MOIST = 0.1

/**
 * By how much the error of a cell counts once it boils: its heat is kept anyhow, and what a new bit of crust does for a
 * minute doesn't move the front. Core times stay within 0.2 % of those with full count, at a third to a fifth of
 * the steps.
 */
const BOILING_SHARE = 0.1

interface Pair {
  readonly axis: number
  readonly low: number
  readonly high: number
  readonly area: number
  readonly lowDistance: number
  readonly highDistance: number
}

/**
 * @param used  axes of the mesh that have links, in the order of the solver's
 * @param values  the joined table
 */
export function createBakeLinks(
  mesh: Mesh,
  cells: BakeCells,
  used: readonly number[],
  padding: number,
  values: Float64Array,
): RenewedLinks {
  /** m K/W on the side of crust and outside, and on the side of moister cells, of the half as poured. */
  const drySide = new Float64Array(mesh.cells)
  const moistSide = new Float64Array(mesh.cells)
  const dryness = new Float64Array(mesh.cells)
  const errorShare = new Float64Array(mesh.cells + 2 * padding).fill(1)
  const leastSlope = new Float64Array(mesh.cells + 2 * padding)
  const stack = mesh.body.stackAxis
  const pairs: Pair[] = []
  for (const [index, axis] of used.entries()) {
    const stride = axis === 0 ? 1 : axis === 1 ? mesh.n[0] : mesh.n[0] * mesh.n[1]
    for (let low = 0; low < mesh.cells; low++) {
      const area = mesh.area[axis]?.[low] ?? 0
      const high = low + stride
      const layer = cells.layerOf(low)
      if (area === 0 || layer === undefined || layer !== cells.layerOf(high)) continue
      const lowDistance = mesh.toFace[axis]![low]!
      pairs.push({ axis: index, low, high, area, lowDistance, highDistance: mesh.fromFace[axis]![low]! })
    }
  }
  const own = Array.from({ length: mesh.cells }, (_, cell) => cells.layerOf(cell) !== undefined)
  /** Corners between baking cells where the axes slant. */
  const slanted = mesh.slant?.map((slant, cell) => (own[cell] === true ? slant : 0))
  /** Of the four cells at a corner, W/(m K). */
  const meanConductivity = (corner: number): number => {
    let sum = 0
    for (const cell of [corner, corner + 1, corner + mesh.n[0], corner + mesh.n[0] + 1])
      sum += 2 / (drySide[cell]! + moistSide[cell]!)
    return sum / 4
  }

  const growthOf = (cell: number): number => cells.rows[cells.rowOf(cell)]!
  /** Factor on a distance, and on the area of a face, of a cell's row. */
  const stretch = (axis: number, cell: number): number => (axis === stack ? growthOf(cell) : 1)
  const spread = (axis: number, cell: number): number => (axis === stack ? 1 : growthOf(cell))
  const towards = (cell: number, other: number): number =>
    dryness[other]! > dryness[cell]! ? drySide[cell]! : moistSide[cell]!

  return {
    errorShare,
    leastSlope,
    overshoot: cells.overshoot,
    holds: (i) => own[i - padding] === true,
    look(y) {
      for (let cell = 0; cell < mesh.cells; cell++) {
        const layer = cells.layerOf(cell)
        if (layer === undefined) continue
        const u = y[padding + cell]!
        const at = (u | 0) * STRIDE
        const T_C = values[at + 2]! + values[at + 3]! * u
        const growth = cells.growth[cell]!
        const crust = 1 / layer.conductivity.crust(T_C, growth)
        if (cells.dried[cell] === 1) {
          errorShare[padding + cell] = BOILING_SHARE
          leastSlope[padding + cell] = 0
          dryness[cell] = 1
          drySide[cell] = crust
          moistSide[cell] = crust
          continue
        }
        const through = Math.min((u - layer.boilsFrom) / layer.boilsOver, 1)
        const share = Math.max(cells.dried[cell]!, through)
        errorShare[padding + cell] = through > 0 ? BOILING_SHARE : 1
        leastSlope[padding + cell] = through > 0 ? layer.dryStep : 0
        const moist = (1 - Math.min(share, 1 - LEAST_MOIST)) / layer.conductivity.moist(T_C, cells.set[cell]!, growth)
        dryness[cell] = share
        drySide[cell] = 2 * share * crust + moist
        moistSide[cell] = moist
      }
    },
    write(links) {
      for (const { axis, low, high, area, lowDistance, highDistance } of pairs) {
        const along = used[axis]!
        const R =
          lowDistance * stretch(along, low) * towards(low, high) +
          highDistance * stretch(along, high) * towards(high, low)
        links[axis]![padding + low] = (area * spread(along, low)) / R
      }
      slantLinks(slanted, meanConductivity, mesh.n[0], padding, links)
    },
    outerResistance: ({ cell, axis, distance }) => distance * stretch(axis, cell - padding) * drySide[cell - padding]!,
    outerArea: ({ cell, axis, area }) => area * spread(axis, cell - padding),
    contactResistance(i, { axis, low, lowDistance, highDistance }) {
      const cell = i - padding
      return (i === low ? lowDistance : highDistance) * stretch(axis, cell) * drySide[cell]!
    },
    contactArea({ axis, low, high, area }) {
      const cell = (own[low - padding] === true ? low : high) - padding
      return area * spread(axis, cell)
    },
  }
}
