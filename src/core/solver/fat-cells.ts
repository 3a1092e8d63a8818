import type { Mesh } from '../geometry/mesh.ts'
import type { Material, ThermalCurve } from '../materials/material.ts'
import type { CellLaw } from './cell-law.ts'
import { type Conduction, changePart } from './conduction.ts'
import { enthalpyOf, placeInTable, STRIDE, type TableSource, type ThermalTable } from './thermal-table.ts'

/*
 * Fat that sets later than it melts. Between the course of the rested fat and that of the undercooled one, what is solid
 * stays as it is: a cell that turns round keeps its solid fat until it meets the other course. It then lies in the part
 * of the table without any heat of fat, with the heat of its solid fat kept beside it. All moves keep the cell's heat.
 */

/** Turns smaller than this are none, K: a state at rest trembles with round-off. */
const TURN_K = 1e-5
/** Pieces of the table of what the solid fat holds back, 1/K. */
const PER_K = 10

/** A material with late-setting fat as the cells of a run use it: its three parts of the table. */
export interface FatLayer {
  readonly rested: number
  readonly cooling: number
  readonly molten: number
  /** Heat of a temperature on each course less that of the molten mass, J/m³: 0 without solid fat, negative with. */
  readonly heldRested: (T_C: number) => number
  readonly heldCooling: (T_C: number) => number
  /** The same when all is solid. */
  readonly heldAll: number
}

/** A curve with the conductivity of another one: cells of one material must share it, whatever their part. */
export function conductingLike(curve: ThermalCurve, like: ThermalCurve): ThermalCurve {
  let i = 0
  const last = like.T_C.length - 1
  const conductivityIntegral = curve.T_C.map((T_C) => {
    while (i < last - 1 && like.T_C[i + 1]! < T_C) i++
    const span = like.T_C[i + 1]! - like.T_C[i]!
    const low = like.conductivityIntegral[i]!
    return span === 0 ? low : low + ((like.conductivityIntegral[i + 1]! - low) * (T_C - like.T_C[i]!)) / span
  })
  return { ...curve, conductivityIntegral }
}

/** What the three parts of a material's table are made from, in the order rested, cooling, molten. */
export function fatSources(material: Material, cooling: Material, molten: Material): TableSource[] {
  const like = (other: Material): TableSource => ({
    curve: (low_C, high_C) => conductingLike(other.curve(low_C, high_C), material.curve(low_C, high_C)),
  })
  return [material, like(cooling), like(molten)]
}

/** @param rested  first of the material's three parts of the table */
export function fatLayer(
  table: ThermalTable,
  rested: number,
  [low_C, high_C]: readonly [number, number],
  material: Material,
  molten: Material,
): FatLayer {
  const heatOf = (part: number, T_C: number): number => enthalpyOf(table.parts[part]!, placeInTable(table, part, T_C))
  const pieces = Math.ceil((high_C - low_C) * PER_K)
  const drawn = (part: number) => {
    const held = Float64Array.from({ length: pieces + 1 }, (_, i) => {
      const T_C = low_C + ((high_C - low_C) * i) / pieces
      return Math.min(0, heatOf(part, T_C) - heatOf(rested + 2, T_C))
    })
    return (T_C: number): number => {
      const x = Math.min(Math.max(((T_C - low_C) * pieces) / (high_C - low_C), 0), pieces)
      const i = Math.min(Math.trunc(x), pieces - 1)
      return held[i]! + (held[i + 1]! - held[i]!) * (x - i)
    }
  }
  const COLD_C = -40
  return {
    rested,
    cooling: rested + 1,
    molten: rested + 2,
    heldRested: drawn(rested),
    heldCooling: drawn(rested + 1),
    heldAll: material.density * (material.at(COLD_C).enthalpy_J_kg - molten.at(COLD_C).enthalpy_J_kg),
  }
}

export interface FatCells extends CellLaw {
  /** Puts a cell into the part without heat of fat, with that much held back, J/m³. */
  hold(cell: number, held: number): void
}

/** @param layers  late-setting fat of each layer; nothing for the others. Shape: mesh.layers */
export function createFatCells(
  mesh: Mesh,
  layers: readonly (FatLayer | undefined)[],
  padding: number,
  table: ThermalTable,
  conduction: () => Conduction,
): FatCells {
  const { cells } = mesh
  const { values } = table
  const layerOf = (cell: number): FatLayer | undefined => layers[mesh.layerOf[cell]!]
  const own = Int32Array.from({ length: cells }, (_, cell) => cell).filter((cell) => layerOf(cell) !== undefined)
  const held = new Float64Array(cells)
  const solid = new Float64Array(cells).fill(Number.NaN)
  const before_C = new Float64Array(cells)

  const temperatureOf = (u: number): number => {
    const at = (u | 0) * STRIDE
    return values[at + 2]! + values[at + 3]! * u
  }
  const placeOf = (part: number, enthalpy: number): number => {
    const { offset, enthalpyAtOffset, enthalpyStep } = table.parts[part]!
    return offset + (enthalpy - enthalpyAtOffset) / enthalpyStep
  }

  /** Puts a cell with all of its heat on one of the two courses; returns its place. */
  const join = (cell: number, part: number, enthalpy: number): number => {
    held[cell] = 0
    changePart(conduction(), cell, part)
    return placeOf(part, enthalpy)
  }

  /** Lets a cell keep its solid fat, unless that would leave the two courses; returns its place. */
  const keep = (cell: number, layer: FatLayer, kept: number, enthalpy: number): number => {
    const place = placeOf(layer.molten, enthalpy - kept)
    const T_C = temperatureOf(place)
    if (kept > layer.heldCooling(T_C)) return join(cell, layer.cooling, enthalpy)
    if (kept < layer.heldRested(T_C)) return join(cell, layer.rested, enthalpy)
    held[cell] = kept
    changePart(conduction(), cell, layer.molten)
    return place
  }

  const note = (cell: number, layer: FatLayer, part: number, T_C: number): void => {
    before_C[cell] = T_C
    const back =
      part === layer.molten ? held[cell]! : part === layer.rested ? layer.heldRested(T_C) : layer.heldCooling(T_C)
    solid[cell] = Math.min(Math.max(back / layer.heldAll, 0), 1)
  }

  return {
    names: ['solidFat'],
    values: [solid],
    advance(y) {
      let changed = false
      const { partOf } = conduction()
      for (const cell of own) {
        const i = padding + cell
        const layer = layerOf(cell)!
        const part = partOf[cell]!
        const u = y[i]!
        const T_C = temperatureOf(u)
        const moved = T_C - before_C[cell]!
        const turned = part === layer.molten || (part === layer.rested ? moved < -TURN_K : moved > TURN_K)
        if (turned) {
          const enthalpy = enthalpyOf(table.parts[part]!, u) + held[cell]!
          const kept =
            part === layer.molten
              ? held[cell]!
              : part === layer.rested
                ? layer.heldRested(before_C[cell]!)
                : layer.heldCooling(before_C[cell]!)
          const place = keep(cell, layer, kept, enthalpy)
          if (partOf[cell] !== part) {
            changed = true
            y[i] = place
          }
        }
        note(cell, layer, partOf[cell]!, temperatureOf(y[i]!))
      }
      return changed
    },
    hidden: (cell) => held[cell]!,
    hold(cell, back) {
      held[cell] = back
      changePart(conduction(), cell, layerOf(cell)!.molten)
    },
    settle(y) {
      const { partOf } = conduction()
      for (const cell of own) note(cell, layerOf(cell)!, partOf[cell]!, temperatureOf(y[padding + cell]!))
    },
  }
}
