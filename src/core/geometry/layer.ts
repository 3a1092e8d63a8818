import type { Material } from '../materials/material.ts'

/** A layer of the piece, in SI. */
export interface Layer {
  /** How the plan names it: `fill[0]`, `lining[1]`. */
  readonly name: string
  readonly material: Material
  /** m; null only for the one fill of a shape without stack axis: what the lining leaves. */
  readonly thickness: number | null
  /** Temperature when it is poured or laid, °C. */
  readonly start_C: number
}
