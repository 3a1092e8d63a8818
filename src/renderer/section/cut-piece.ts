import type { LayerRow } from '../edits/layers.ts'
import type { Box, Figure } from './figures.ts'

/** A layer with its place in the list, from 1. */
export interface Numbered {
  readonly row: LayerRow
  readonly number: number
}

/** A layer as it shows where the piece is cut. */
export interface Area extends Numbered {
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
  /** Outside first. */
  readonly areas: readonly Area[]
  /** With the mould. */
  readonly bounds: Box
}

/** The layers of a piece by where they lie. */
export interface Layers {
  /** Outside in. */
  readonly lining: readonly Numbered[]
  /** Filled and poured, in that order. */
  readonly stacked: readonly Numbered[]
  /** Poured while the piece lay upside down: against its first underside, nearest first. */
  readonly beneath: readonly Numbered[]
  /** Nearest to the piece first. */
  readonly mould: readonly MouldWall[]
}

export interface MouldWall extends Numbered {
  /** The modelled faces along which it stands. */
  readonly faces: ReadonlySet<string>
}

export const thick = (row: LayerRow): number => row.thickness_mm ?? 0

/** All layers of a list together, mm. */
export const together = (layers: readonly Numbered[]): number => layers.reduce((sum, { row }) => sum + thick(row), 0)
