import type { Baking, Material } from '../materials/material.ts'
import { enthalpyOf, placeInTable, STRIDE, type TablePart, type ThermalTable } from '../solver/thermal-table.ts'
import { type BakeConductivity, bakeConductivity } from './bake-conductivity.ts'

/** A baking material as the cells of a run use it: its two parts of the table, moist and dry, and what lies between. */
export interface BakeLayer {
  readonly baking: Baking
  readonly conductivity: BakeConductivity
  readonly moist: number
  readonly dry: number
  readonly moistPart: TablePart
  readonly dryPart: TablePart
  /** Table place of moist mass at which boiling begins, and how far it reaches when all has boiled out. */
  readonly boilsFrom: number
  readonly boilsOver: number
  /** J/m³ of boiling all out; of that and the liquid's own heat, which leave with the vapour. */
  readonly latent: number
  readonly carried: number
  /** K that a table place counts for in the crust just dried, by the moist part's table. */
  readonly dryStep: number
  /** kg of water that boils out of 1 m³ as poured. */
  readonly water: number
}

/**
 * @param moist  part of the table with the material's own curve; `dry` that of its crust
 */
export function bakeLayer(
  material: Material,
  baking: Baking,
  table: ThermalTable,
  moist: number,
  dry: number,
  [low_C, high_C]: readonly [number, number],
): BakeLayer {
  const moistPart = table.parts[moist]!
  const dryPart = table.parts[dry]!
  const curve = material.curve(low_C, high_C)
  const corner = curve.T_C.indexOf(baking.boils_C)
  // A range that ends below boiling: nothing ever boils.
  const start = corner < 0 ? Number.POSITIVE_INFINITY : curve.enthalpy[corner]!
  const latent = corner < 0 ? 1 : curve.enthalpy[corner + 1]! - start
  const left = corner < 0 ? 0 : enthalpyOf(dryPart, placeInTable(table, dry, baking.boils_C))
  return {
    baking,
    conductivity: bakeConductivity(baking, low_C, high_C),
    moist,
    dry,
    moistPart,
    dryPart,
    boilsFrom: moistPart.offset + (start - moistPart.enthalpyAtOffset) / moistPart.enthalpyStep,
    boilsOver: latent / moistPart.enthalpyStep,
    latent,
    carried: start + latent - left,
    dryStep: corner < 0 ? 0 : temperatureStep(table, moistPart, start + latent),
    water: material.density * baking.boilsOut,
  }
}

/** K a table place, at an enthalpy of a part. */
function temperatureStep(table: ThermalTable, part: TablePart, enthalpy: number): number {
  const interval = Math.min(Math.ceil((enthalpy - part.enthalpyAtOffset) / part.enthalpyStep) + 1, part.intervals - 1)
  return table.values[(part.offset + interval) * STRIDE + 3]!
}
