import type { Mesh } from '../geometry/mesh.ts'
import type { Material, ThermalCurve } from '../materials/material.ts'
import { scaledCurve } from '../materials/scaled.ts'
import type { CellLaw } from './cell-law.ts'
import { type Conduction, changePart } from './conduction.ts'
import { enthalpyOf, placeInTable, placesRising, STRIDE, type TableSource, type ThermalTable } from './thermal-table.ts'

/*
 * Fat that sets later than it melts. Between the course of the rested fat and that of the undercooled one, what is solid
 * stays as it is: a cell that turns round keeps its solid fat until it meets the other course. It then lies in the part
 * of the table without any heat of fat, with the heat of its solid fat kept beside it. All moves keep the cell's heat.
 */

/**
 * Turns smaller than this are none, K: on its way to rest a state trembles. Till then a cell moves on its course both
 * ways. It is back on it half as far from where it left, so that a turn within a turn closes whatever it trembles.
 */
const TURN_K = 1e-3
/** A cell that a step moves by less is at rest, K: should it have trembled past where it rests, it turns from here. */
const REST_K = 1e-9
/** Where both courses lie closer than this share of all heat of melting, they are one: the rested one. */
const SAME_SHARE = 1e-4
/** Pieces of the table of what the solid fat holds back, 1/K. */
const PER_K = 10
/** More than that table misses between its points and than sets within `TURN_K`, as a share of all heat of melting. */
const NEAR_SHARE = 3e-4

/** A material with late-setting fat as the cells of a run use it: its three parts of the table. */
export interface FatLayer {
  readonly rested: number
  readonly cooling: number
  readonly molten: number
  /**
   * Heat of a temperature on each course less that of the molten mass, J/m³: 0 without solid fat, negative with; read
   * from a table.
   */
  readonly heldRested: (T_C: number) => number
  readonly heldCooling: (T_C: number) => number
  /** The same to round-off, by a search; `part` is one of the two courses. */
  readonly heldExactly: (part: number, T_C: number) => number
  /** The same when all is solid. */
  readonly heldAll: number
}

/** Straight lines between the points of a column, asked for rising temperatures; of a change of phase the lower end. */
function along({ T_C }: ThermalCurve, column: Float64Array): (at_C: number) => number {
  let i = 0
  const last = T_C.length - 1
  return (at_C) => {
    while (i < last - 1 && T_C[i + 1]! < at_C) i++
    const span = T_C[i + 1]! - T_C[i]!
    return span === 0 ? column[i]! : column[i]! + ((column[i + 1]! - column[i]!) * (at_C - T_C[i]!)) / span
  }
}

/** What `conductingLike` has made: materials keep their curves, and a job is run several times. */
const drawn = new WeakMap<ThermalCurve, { readonly like: ThermalCurve; readonly made: ThermalCurve }>()

/**
 * A curve with the conductivity of another one: cells of one material must share it, whatever their part. It takes over
 * the other's points too, so that both are one polyline. Neither has a change of phase at one temperature.
 */
export function conductingLike(curve: ThermalCurve, like: ThermalCurve): ThermalCurve {
  if (curve.scaledFrom !== undefined && like.scaledFrom !== undefined) {
    const { heat } = curve.scaledFrom
    return scaledCurve(conductingLike(curve.scaledFrom.curve, like.scaledFrom.curve), { k: like.scaledFrom.k, heat })
  }
  const known = drawn.get(curve)
  if (known?.like === like) return known.made
  const [low, high] = [curve.T_C[0]!, curve.T_C[curve.T_C.length - 1]!]
  const others = like.T_C.filter((T_C) => T_C > low && T_C < high)
  const T_C = Float64Array.from(new Set([...curve.T_C, ...others])).sort()
  const made = {
    T_C,
    enthalpy: T_C.map(along(curve, curve.enthalpy)),
    conductivityIntegral: T_C.map(along(like, like.conductivityIntegral)),
    kinks_C: curve.kinks_C,
  }
  drawn.set(curve, { like, made })
  return made
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
  const heldExactly = (part: number, T_C: number): number => Math.min(0, heatOf(part, T_C) - heatOf(rested + 2, T_C))
  const pieces = Math.ceil((high_C - low_C) * PER_K)
  const heats = (part: number): Float64Array => {
    const placeOf = placesRising(table, part)
    const heat = new Float64Array(pieces + 1)
    for (let i = 0; i <= pieces; i++)
      heat[i] = enthalpyOf(table.parts[part]!, placeOf(low_C + ((high_C - low_C) * i) / pieces))
    return heat
  }
  const moltenHeats = heats(rested + 2)
  const drawn = (part: number) => {
    const held = heats(part)
    for (let i = 0; i < held.length; i++) held[i] = Math.min(0, held[i]! - moltenHeats[i]!)
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
    heldExactly,
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
  /** Furthest place of a cell on its course. Shape: cells */
  const furthest = new Float64Array(cells)
  /** Temperature of a cell after the step before, °C. Shape: cells */
  const before_C = new Float64Array(cells).fill(Number.NaN)

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
    // Only near a course is it worth a search.
    const near = -NEAR_SHARE * layer.heldAll
    if (kept > layer.heldCooling(T_C) - near && kept > layer.heldExactly(layer.cooling, T_C - TURN_K / 2))
      return join(cell, layer.cooling, enthalpy)
    if (kept < layer.heldRested(T_C) + near && kept < layer.heldExactly(layer.rested, T_C + TURN_K / 2))
      return join(cell, layer.rested, enthalpy)
    held[cell] = kept
    changePart(conduction(), cell, layer.molten)
    return place
  }

  const note = (cell: number, layer: FatLayer, part: number, place: number): void => {
    const T_C = temperatureOf(place)
    const back =
      part === layer.molten ? held[cell]! : part === layer.rested ? layer.heldRested(T_C) : layer.heldCooling(T_C)
    solid[cell] = Math.min(Math.max(back / layer.heldAll, 0), 1)
  }

  /** Heat of the solid fat of a cell at its furthest on its course, J/m³. */
  const heldAtFurthest = (cell: number, layer: FatLayer, part: number): number =>
    part === layer.molten ? held[cell]! : layer.heldExactly(part, temperatureOf(furthest[cell]!))

  const apart = (layer: FatLayer, T_C: number): boolean =>
    layer.heldCooling(T_C) - layer.heldRested(T_C) > -SAME_SHARE * layer.heldAll

  /** All heat of a cell, that of its solid fat included, J/m³. */
  const heatIn = (cell: number, part: number, place: number): number =>
    enthalpyOf(table.parts[part]!, place) + held[cell]!

  /** New place of a cell after a step, when it changes its part; its old one else. */
  const follow = (cell: number, layer: FatLayer, part: number, place: number): number => {
    const T_C = temperatureOf(place)
    const rests = Math.abs(T_C - before_C[cell]!) < REST_K
    before_C[cell] = T_C
    if (!apart(layer, T_C)) {
      furthest[cell] = place
      return part === layer.rested ? place : join(cell, layer.rested, heatIn(cell, part, place))
    }
    if (part !== layer.molten) {
      // Warming goes along the rested course, cooling along the other.
      const ahead = (part === layer.rested ? 1 : -1) * (T_C - temperatureOf(furthest[cell]!))
      if (ahead > 0 || (rests && ahead > -TURN_K)) furthest[cell] = place
      if (ahead > -TURN_K) return place
      // Out of where both are one: whichever step left it, from here on it goes along the course of the cooling.
      if (part === layer.rested && !apart(layer, temperatureOf(furthest[cell]!)))
        return join(cell, layer.cooling, heatIn(cell, part, place))
      const share = heldAtFurthest(cell, layer, part) / layer.heldAll
      // Nothing to keep, or nothing that could still set: the course serves both ways.
      if (part === layer.rested ? share > 1 - SAME_SHARE : share < SAME_SHARE) {
        furthest[cell] = place
        return place
      }
    }
    return keep(cell, layer, heldAtFurthest(cell, layer, part), heatIn(cell, part, place))
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
        const place = follow(cell, layer, part, y[i]!)
        if (partOf[cell] !== part) {
          changed = true
          y[i] = place
          furthest[cell] = place
        }
        note(cell, layer, partOf[cell]!, y[i]!)
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
      for (const cell of own) {
        furthest[cell] = y[padding + cell]!
        note(cell, layerOf(cell)!, partOf[cell]!, y[padding + cell]!)
      }
    },
  }
}
