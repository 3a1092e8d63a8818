import type { Message } from '../messages.ts'
import type { Coordinates } from './coordinates/coordinates.ts'

/** Name of an outer face in the words of the plan (`top`, `bottom`, `left`, …). */
export type FaceName = string

/** One axis of the modelled section; coordinates run from 0 to `length`. */
export interface BodyAxis {
  /** Which share of the bounding box this axis carries: x across, y upward, z along. A radius carries x. */
  readonly carries: 'x' | 'y' | 'z'
  /** m; ignored on the stack axis, whose length is the sum of its layers. */
  readonly length: number
  /** Face at coordinate 0; null where there is none (the pole of a radius). */
  readonly low: FaceName | null
  /** Face at the far end. */
  readonly high: FaceName
  /** Whether the lining covers the low and the high face. */
  readonly linedLow: boolean
  readonly linedHigh: boolean
}

/**
 * A shape with its sizes in SI, before layers: what a shape file gives to the mesh.
 * `measure` turns a quantity of the modelled section into one of the whole piece: m² for a sheet, m for a bar, 1 else.
 */
export interface Body {
  readonly kind: string
  readonly coordinates: Coordinates
  readonly axes: readonly BodyAxis[]
  /** Axis along which fill layers lie on each other, bottom first; null: one fill takes what the lining leaves. */
  readonly stackAxis: number | null
  readonly measure: number
  /** Face names a plan may use, each with the elementary faces that it stands for (`sides` → left, right). */
  readonly faces: Readonly<Record<FaceName, readonly FaceName[]>>
  /** What the model leaves out (ends of a long bar), for the forecast's notes. */
  readonly notes: (height: number) => readonly Message[]
}

/** A place in the piece as shares of its bounding box: x across, y upward, z along; 0.5 is the middle. */
export interface Place {
  readonly x: number
  readonly y: number
  readonly z: number
}
