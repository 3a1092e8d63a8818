import { type BakeCells, createBakeCells } from '../baking/bake-cells.ts'
import { createBakeLinks } from '../baking/bake-links.ts'
import { type Mesh, NOTHING } from '../geometry/mesh.ts'
import type { StateLaw } from '../materials/state-law.ts'
import type { CellLaw } from '../solver/cell-law.ts'
import { type Conduction, prepare } from '../solver/conduction.ts'
import { createCurrents, POURS } from '../solver/currents.ts'
import { createFatCells, type FatCells } from '../solver/fat-cells.ts'
import { enthalpyOf, placeInTable, temperatureAt } from '../solver/thermal-table.ts'
import type { MaterialInRun, MaterialsInRun } from './materials-in-run.ts'
import { createStates, type States } from './states.ts'

/** What the cells of one mesh carry along beside their temperature, and the conduction that rests on it. */
export interface Cells {
  readonly mesh: Mesh
  readonly conduction: Conduction
  /** Names of the values carried, and the values; NaN where a cell has none of that name. Shape: names × cells */
  readonly names: readonly string[]
  readonly values: readonly Float64Array[]
  /** Table places of a piece at its layers' start temperatures, padded. */
  start(): Float64Array
  /** Takes `y` as the state from which `advance` goes on. */
  settle(y: Float64Array): void
  /** Takes in the end of an accepted step, `y` overwritten; whether conduction has to be begun anew. */
  advance(y: Float64Array, dt: number): boolean
  /** Heat of the modelled section, J, relative to the tables; what vapour has carried off is taken as still there. */
  content(y: Float64Array): number
  /** Heat that vapour has carried off, J, and water that left with it, kg; of the modelled section. */
  vapourHeat(): number
  waterLost(): number
  /** Height along the stack axis, m, where the piece may rise; undefined where it has no such height or never does. */
  height(): number | undefined
  /** For `carryCells`. */
  readonly materialOf: (cell: number) => MaterialInRun | undefined
  readonly bake: BakeCells | undefined
  readonly fat: FatCells | undefined
  readonly states: States
}

/**
 * @param inRun  the run's materials and their joined table
 * @param laws  of values that every cell carries
 * @param turned  whether the piece lies upside down, as against the start
 */
export function createCells(
  mesh: Mesh,
  inRun: MaterialsInRun,
  laws: readonly StateLaw[],
  turned: () => boolean = () => false,
): Cells {
  const { table } = inRun
  const layers = mesh.layers.map((layer) => inRun.of(layer.material))
  const materialOf = (cell: number): MaterialInRun | undefined => layers[mesh.layerOf[cell]!]
  let bake: BakeCells | undefined
  let fat: FatCells | undefined
  const conductionNow = (): Conduction => conduction
  const conduction: Conduction = prepare(
    mesh,
    table,
    layers.map(({ part, index }) => ({ part, material: index })),
    layers.some((layer) => layer.fat !== undefined),
    (axes, padding) => {
      if (layers.some((layer) => layer.fat !== undefined))
        fat = createFatCells(
          mesh,
          layers.map((layer) => layer.fat),
          padding,
          table,
          conductionNow,
        )
      if (layers.every((layer) => layer.bakes === undefined)) return undefined
      bake = createBakeCells(
        mesh,
        layers.map((layer) => layer.bakes),
        padding,
        table.values,
        conductionNow,
      )
      return createBakeLinks(mesh, bake, axes, padding, table.values)
    },
    turned,
  )
  const { padding } = conduction.fields
  const states = createStates(mesh, laws)
  const pours = states.values[states.names.indexOf(POURS)]
  const currents =
    pours === undefined
      ? undefined
      : createCurrents(mesh, padding, table.values, pours, bake !== undefined, conductionNow)
  const changing: CellLaw[] = [bake, fat, currents].filter((law) => law !== undefined)
  const carried = [...changing, states]
  const T_C = (y: Float64Array, cell: number): number => temperatureAt(table, y[padding + cell]!)
  return {
    mesh,
    conduction,
    names: carried.flatMap((law) => law.names),
    values: carried.flatMap((law) => law.values),
    start() {
      const y = conduction.allocate()
      for (let cell = 0; cell < mesh.cells; cell++) {
        const layer = mesh.layerOf[cell]!
        const { start_C } = mesh.layers[layer === NOTHING ? 0 : layer]!
        y[padding + cell] = placeInTable(table, conduction.partOf[cell]!, start_C)
      }
      return y
    },
    settle(y) {
      for (const law of changing) law.settle(y)
      states.settle((cell) => T_C(y, cell))
    },
    advance(y, dt) {
      states.advance((cell) => T_C(y, cell), dt)
      let changed = false
      for (const law of changing) changed = law.advance(y, dt) || changed
      return changed
    },
    content(y) {
      let sum = 0
      for (let cell = 0; cell < mesh.cells; cell++) {
        let enthalpy = enthalpyOf(table.parts[conduction.partOf[cell]!]!, y[padding + cell]!)
        for (const law of changing) enthalpy += law.hidden(cell)
        sum += mesh.volume[cell]! * enthalpy
      }
      return sum + (bake?.booked() ?? 0)
    },
    vapourHeat: () => bake?.vapourHeat() ?? 0,
    waterLost: () => bake?.waterLost() ?? 0,
    height: () => bake?.height(),
    materialOf,
    bake,
    fat,
    states,
  }
}
