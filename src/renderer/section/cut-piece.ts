import type { LayerRow } from '../edits/layers.ts'
import type { Figure, Frame } from './figures.ts'

/** A layer as it shows where the piece is cut. */
export interface Area {
  readonly row: LayerRow
  /** Its place in the list, from 1. */
  readonly number: number
  readonly figure: Figure
  /** The layer's own thickness, mm; null for the fill that takes what is left. */
  readonly thickness: number | null
}

/** The cut piece with its mould, before it is put on paper. */
export interface CutPiece {
  readonly width: number
  readonly height: number
  /** True where the piece goes on beyond what is drawn. */
  readonly broken: boolean
  /** Round about an upright axis, or symmetrical enough to have a centre line. */
  readonly centred: boolean
  /** Whether layers lie on each other, so that thicknesses make up the height. */
  readonly stacked: boolean
  /** Whether a flat side that is one end of the layers is up. */
  readonly flatUp: boolean
  /** Outside first. */
  readonly areas: readonly Area[]
  /** The piece as its shape alone makes it. */
  readonly shape: Frame
  /** With the mould. */
  readonly bounds: Frame
  /** Heights at which one tier ends and the next begins, with both ends, mm; absent where there are none. */
  readonly tiers?: readonly number[]
  /** Where it is cut: x in mm, and shares of the length. */
  readonly cuts: { readonly across: readonly number[]; readonly along: readonly number[] }
}
