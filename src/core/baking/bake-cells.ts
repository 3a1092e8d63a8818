import { cellIndices, type Mesh } from '../geometry/mesh.ts'
import type { CellLaw } from '../solver/cell-law.ts'
import { type Conduction, changePart } from '../solver/conduction.ts'
import { STRIDE } from '../solver/thermal-table.ts'
import type { BakeLayer } from './bake-layer.ts'

/*
 * The state of baking cells: how far each has set, what share of its water has boiled out, how much it has grown.
 *
 * Water boils out at one temperature; while a cell is partly through it, it stays at that temperature. Once through, it
 * is crust for good. Where a cell cools before it is through, what has boiled out is gone: heat taken from it then
 * comes out of its warmth, and when it boils again it goes on where it stopped.
 */

export interface BakeCells extends CellLaw {
  /** 0 to 1; NaN for other cells. Shape of all three: cells */
  readonly set: Float64Array
  /** Share of the water that boils out which has. */
  readonly dried: Float64Array
  /** Volume over volume as poured. */
  readonly growth: Float64Array
  /** What a cell bakes as; nothing for other cells. */
  layerOf(cell: number): BakeLayer | undefined
  /** Growth of each row along the stack axis: the mean of its cells, by volume. */
  readonly rows: Float64Array
  rowOf(cell: number): number
  /** Heat that vapour has carried off so far, J, and water that has left with it, kg; of the modelled section. */
  vapourHeat(): number
  waterLost(): number
  /** Heat booked out of the cells' tables so far, J: that of vapour less what still counts as boiling in a cell. */
  booked(): number
  /** How far above the boiling point a cell would be thrown that has less left to boil than its table tells, K. */
  overshoot(y: Float64Array): number
  /** Goes on with what was booked before the piece changed its form. */
  resume(booked: number): void
  /** Height of the piece along its stack axis as it is now, m; undefined where it has none. */
  height(): number | undefined
}

/** Grown cells push the rows above them up only where the stack is straight. */
function stacks({ body, coordinates }: Mesh): boolean {
  return body.stackAxis !== null && ['cartesian', 'upright-cylinder'].includes(coordinates.name)
}

/**
 * @param layers  what each layer of the mesh bakes as; nothing for the others. Shape: mesh.layers
 * @param conduction  asked for only when cells change
 */
export function createBakeCells(
  mesh: Mesh,
  layers: readonly (BakeLayer | undefined)[],
  padding: number,
  values: Float64Array,
  conduction: () => Conduction,
): BakeCells {
  const { cells, volume } = mesh
  const layerOf = (cell: number): BakeLayer | undefined => layers[mesh.layerOf[cell]!]
  const own = Int32Array.from({ length: cells }, (_, cell) => cell).filter((cell) => layerOf(cell) !== undefined)
  const of = (value: (layer: BakeLayer) => number): Float64Array =>
    Float64Array.from({ length: cells }, (_, cell) => {
      const layer = layerOf(cell)
      return layer === undefined ? Number.NaN : value(layer)
    })
  const set = of(({ baking }) => (baking.baked ? 1 : 0))
  const dried = of(() => 0)
  const growth = of(() => 1)
  /** Whether a cell's place lies within boiling, so that its table still holds the heat of what has boiled out. */
  const boiling = new Uint8Array(cells)
  const before_C = new Float64Array(cells)
  let booked = 0

  const rises = stacks(mesh)
  const stack = mesh.body.stackAxis ?? 0
  const rowOf = (cell: number): number => (rises ? cellIndices(mesh.n, cell)[stack as 0 | 1 | 2] : 0)
  const rowIndex = Int32Array.from({ length: cells }, (_, cell) => rowOf(cell))
  const rows = new Float64Array(rises ? mesh.n[stack as 0 | 1 | 2] : 1).fill(1)
  const rowVolume = new Float64Array(rows.length)
  for (const cell of own) rowVolume[rowIndex[cell]!] = rowVolume[rowIndex[cell]!]! + volume[cell]!

  const temperatureOf = (u: number): number => {
    const at = (u | 0) * STRIDE
    return values[at + 2]! + values[at + 3]! * u
  }

  /** Share that sets while the temperature goes straight from one to the other: Simpson's mean of the rate. */
  const setting = ({ baking }: BakeLayer, from_C: number, to_C: number, dt: number): number => {
    const rate = baking.settingRate(from_C) + 4 * baking.settingRate((from_C + to_C) / 2) + baking.settingRate(to_C)
    return -Math.expm1((-rate * dt) / 6)
  }

  const soften = (cell: number, layer: BakeLayer, to_C: number, dt: number): void => {
    const from_C = before_C[cell]!
    const softBefore = 1 - set[cell]!
    if (softBefore === 0) return
    const soft = softBefore * (1 - setting(layer, from_C, to_C, dt))
    set[cell] = 1 - (soft < 1e-6 ? 0 : soft)
    if (!rises) return
    const { softGrowth } = layer.baking
    growth[cell] = growth[cell]! + ((softBefore + soft) / 2) * (softGrowth(to_C) - softGrowth(from_C))
  }

  /** Moves a moist cell by how far it is through boiling; returns its new place. */
  const boil = (cell: number, layer: BakeLayer, place: number): number => {
    const heat = volume[cell]! * layer.latent
    let through = (place - layer.boilsFrom) / layer.boilsOver
    if (boiling[cell] === 0) {
      if (through <= 0) return place
      // It goes on where it stopped.
      booked -= dried[cell]! * heat
      through += dried[cell]!
      boiling[cell] = 1
    }
    if (through >= 1) {
      booked += volume[cell]! * layer.carried
      dried[cell] = 1
      boiling[cell] = 0
      const { dryPart, moistPart } = layer
      const excess = (through - 1) * layer.latent
      const enthalpy =
        moistPart.enthalpyAtOffset + excess + (layer.boilsFrom - moistPart.offset) * moistPart.enthalpyStep
      changePart(conduction(), cell, layer.dry)
      return (
        dryPart.offset + (enthalpy + layer.latent - layer.carried - dryPart.enthalpyAtOffset) / dryPart.enthalpyStep
      )
    }
    if (through < dried[cell]!) {
      booked += dried[cell]! * heat
      through -= dried[cell]!
      boiling[cell] = 0
    } else dried[cell] = through
    return layer.boilsFrom + through * layer.boilsOver
  }

  const renewRows = (): void => {
    if (!rises) return
    rows.fill(0)
    for (const cell of own) rows[rowIndex[cell]!] = rows[rowIndex[cell]!]! + volume[cell]! * growth[cell]!
    for (let row = 0; row < rows.length; row++) rows[row] = rowVolume[row]! > 0 ? rows[row]! / rowVolume[row]! : 1
  }

  const settle = (y: Float64Array): void => {
    for (const cell of own) {
      const place = y[padding + cell]!
      before_C[cell] = temperatureOf(place)
      boiling[cell] = dried[cell]! < 1 && place > layerOf(cell)!.boilsFrom ? 1 : 0
    }
    renewRows()
  }

  const sum = (of: (cell: number, layer: BakeLayer) => number): number => {
    let total = 0
    for (const cell of own) total += volume[cell]! * of(cell, layerOf(cell)!)
    return total
  }

  return {
    names: ['set', 'dried', 'growth'],
    values: [set, dried, growth],
    set,
    dried,
    growth,
    layerOf,
    rows,
    rowOf: (cell) => rowIndex[cell]!,
    advance(y, dt) {
      for (const cell of own) {
        const i = padding + cell
        const layer = layerOf(cell)!
        if (dried[cell]! < 1) {
          soften(cell, layer, temperatureOf(y[i]!), dt)
          y[i] = boil(cell, layer, y[i]!)
        }
        before_C[cell] = temperatureOf(y[i]!)
      }
      renewRows()
      return own.length > 0
    },
    hidden: () => 0,
    settle,
    vapourHeat: () => booked + sum((cell, { latent }) => (boiling[cell] === 1 ? dried[cell]! * latent : 0)),
    waterLost: () => sum((cell, { water }) => dried[cell]! * water),
    booked: () => booked,
    overshoot(y) {
      let largest = 0
      for (const cell of own) {
        const already = dried[cell]!
        if (boiling[cell] === 1 || already === 0 || already === 1) continue
        const layer = layerOf(cell)!
        const through = (y[padding + cell]! - layer.boilsFrom) / layer.boilsOver
        if (through <= 0 || through + already <= 1) continue
        largest = Math.max(largest, (through + already - 1) * layer.boilsOver * layer.dryStep)
      }
      return largest
    },
    resume(before) {
      booked = before
    },
    height() {
      if (!rises) return undefined
      const { borders, mirrored } = mesh.axes[stack]!
      let height = 0
      for (let row = 0; row < rows.length; row++) height += rows[row]! * (borders[row + 1]! - borders[row]!)
      return mirrored ? 2 * height : height
    },
  }
}
