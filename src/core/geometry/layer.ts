import type { Material } from '../materials/material.ts'

/** A core within a fill. */
export interface Insert<L = Layer> {
  readonly layer: L
  /** Which fill, counted from the bottom. */
  readonly within: number
  /** How much of the fill is left between it and the fill's own border, m, by elementary face; none where left out. */
  readonly margins: Readonly<Record<string, number>>
}

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
