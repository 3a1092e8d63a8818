import { NOTHING } from '../geometry/mesh.ts'
import { changePart } from '../solver/conduction.ts'
import { enthalpyOf, placeInTable, temperatureAt } from '../solver/thermal-table.ts'
import type { Cells } from './cells.ts'
import { transfer } from './transfer.ts'

/** Closer to a whole number than this, what a cell takes over comes from cells of one part. */
const WHOLE = 1e-9

/**
 * Carries heat and values from the cells of one mesh to those of another. Where the cells are the same, so is
 * everything; where a new cell covers several, heat is kept and values are their means.
 * @param from  the old cells at table places `y`
 * @returns table places of the new cells, and what heat they brought with them that the old ones did not have, J
 */
export function carryCells(
  from: Cells,
  y: Float64Array,
  to: Cells,
): { readonly y: Float64Array; readonly brought: number } {
  const { table } = from.conduction
  const { padding } = from.conduction.fields
  const places = to.start()
  const carry = (of: (cell: number) => number): Float64Array =>
    transfer(
      from.mesh,
      to.mesh,
      Float64Array.from({ length: from.mesh.cells }, (_, cell) => of(cell)),
      () => Number.NaN,
    )
  const partOf = (cell: number): number => from.conduction.partOf[cell]!
  const placeOf = (cell: number): number => y[padding + cell]!
  const enthalpyIn = (cell: number, part: number): number =>
    part === partOf(cell)
      ? enthalpyOf(table.parts[part]!, placeOf(cell))
      : enthalpyOf(table.parts[part]!, placeInTable(table, part, temperatureAt(table, placeOf(cell))))

  for (const [index, name] of to.names.entries()) {
    const old = from.values[from.names.indexOf(name)]
    if (old === undefined) continue
    const carried = carry((cell) => old[cell]!)
    const values = to.values[index]!
    for (let cell = 0; cell < carried.length; cell++) if (!Number.isNaN(carried[cell]!)) values[cell] = carried[cell]!
  }
  to.bake?.resume(((from.bake?.booked() ?? 0) * from.mesh.measure) / to.mesh.measure)

  const enthalpy = carry((cell) => enthalpyIn(cell, partOf(cell)))
  const parts = carry(partOf)
  /** Heat of the solid fat of each old cell; of others nothing. */
  const heldOf = (cell: number): number => {
    const fat = from.materialOf(cell)?.fat
    if (fat === undefined) return 0
    return partOf(cell) === fat.molten
      ? from.fat!.hidden(cell)
      : enthalpyIn(cell, partOf(cell)) - enthalpyIn(cell, fat.molten)
  }
  const hidden = carry((cell) => from.fat?.hidden(cell) ?? 0)
  const held = carry(heldOf)
  const asMoist = carry((cell) => enthalpyIn(cell, from.materialOf(cell)?.bakes?.moist ?? partOf(cell)))
  const asDry = carry((cell) => enthalpyIn(cell, from.materialOf(cell)?.bakes?.dry ?? partOf(cell)))

  let brought = 0
  const put = (cell: number, part: number, heat: number): void => {
    const { offset, enthalpyAtOffset, enthalpyStep } = table.parts[part]!
    changePart(to.conduction, cell, part)
    places[to.conduction.fields.padding + cell] = offset + (heat - enthalpyAtOffset) / enthalpyStep
  }
  for (let cell = 0; cell < to.mesh.cells; cell++) {
    const own = to.materialOf(cell)
    if (own === undefined || to.mesh.layerOf[cell] === NOTHING) continue
    const volume = to.mesh.volume[cell]!
    const first = to.conduction.partOf[cell]!
    if (Number.isNaN(parts[cell]!)) {
      brought += volume * enthalpyOf(table.parts[first]!, places[to.conduction.fields.padding + cell]!)
      continue
    }
    const { fat, bakes } = own
    const part = Math.round(parts[cell]!)
    if (fat !== undefined && (Math.abs(part - parts[cell]!) > WHOLE || part === fat.molten)) {
      to.fat!.hold(cell, held[cell]!)
      put(cell, fat.molten, enthalpy[cell]! + hidden[cell]! - held[cell]!)
    } else if (bakes !== undefined && Math.abs(part - parts[cell]!) > WHOLE) {
      // Crust and moist mass in one cell: it goes on as what most of it is, at the same warmth.
      const dried = to.bake!.dried
      const dry = dried[cell]! >= 0.5
      dried[cell] = dry ? 1 : dried[cell]!
      const heat = dry ? asDry[cell]! : asMoist[cell]!
      brought += volume * (heat - enthalpy[cell]!)
      put(cell, dry ? bakes.dry : bakes.moist, heat)
    } else {
      // Means of one value may miss it by round-off; what is crust is dry to the last.
      if (bakes !== undefined && part === bakes.dry) to.bake!.dried[cell] = 1
      put(cell, part, enthalpy[cell]!)
    }
  }
  unite(to, places)
  to.settle(places)
  return { y: places, brought }
}

/** Gives the cells of every group near a pole their common content and values. */
function unite({ mesh, conduction, values }: Cells, y: Float64Array): void {
  const { joined, fields } = conduction
  const share = (cells: Int32Array, of: Float64Array, offset: number): void => {
    let sum = 0
    let total = 0
    for (const cell of cells) {
      const volume = mesh.volume[cell - fields.padding]!
      sum += volume * of[cell - offset]!
      total += volume
    }
    for (const cell of cells) of[cell - offset] = sum / total
  }
  for (const cells of joined) {
    share(cells, y, 0)
    for (const one of values) share(cells, one, fields.padding)
  }
}
