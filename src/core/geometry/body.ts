import type { Carrier, Coordinates } from './coordinates/coordinates.ts'

/** Name of an outer face in the words of the plan (`top`, `bottom`, `left`, …). */
export type FaceName = string

/** One axis of the piece's coordinates. */
export interface BodyAxis {
  /** Which share of the bounding box this axis carries: x across, y upward, z along. A radius carries x. */
  readonly carries: Carrier
  /** Coordinate of the low end; 0 when left out. */
  readonly from?: number
  /** In coordinates; ignored on the stack axis, whose length is that of its layers. */
  readonly length: number
  /** Face at the low end; null where there is none: a pole, a plane of symmetry, an end that is left out. */
  readonly low: FaceName | null
  /** Face at the high end; null where it is left out. */
  readonly high: FaceName | null
  /** Whether the lining covers the low and the high face. */
  readonly linedLow: boolean
  readonly linedHigh: boolean
  /** One cell along this axis: heat along it is left out. */
  readonly idle?: boolean
  /** Great as a rule: heat along it is left out where little is lost. */
  readonly long?: boolean
  /** How a plan says that the piece is cut square to this axis. */
  readonly cuts?: 'across' | 'along' | 'wedges'
  /** A radius: its halves are never alike, whatever happens at its ends. */
  readonly radial?: boolean
  /** The low end is the tip of a fan of rays: the course along a ray does not come to it level. */
  readonly apex?: boolean
  /** Cells more than usual, as a factor. */
  readonly finer?: number
}

/** One of several rounds on each other: how far it reaches along axis 0, and how high it is, m. */
export interface Tier {
  readonly reach: number
  /** The uppermost one takes what the layers leave. */
  readonly height: number
}

/** Where the fill layers lie on the stack axis, and the coordinates that fit them. */
export interface Fit {
  readonly coordinates: Coordinates
  /** Low and high coordinate of each fill, bottom first. */
  readonly stack: readonly (readonly [low: number, high: number])[]
  /** Share of the largest difference by which temperatures may be off because of how the coordinates lie. */
  readonly error: number
}

/**
 * A shape with its sizes in SI, before layers: what a shape file gives to the mesh.
 * `measure` turns a quantity of the modelled body into one of the whole piece.
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
  /** Lowest first: the outline goes in steps along the stack axis, which then has more than one tier. */
  readonly tiers?: readonly Tier[]
  /** The low end of the stack axis is up at the start: the piece is modelled upside down. */
  readonly invertedAtStart?: boolean
  /** Mixed at all times: one temperature within, no way to the faces. */
  readonly mixed?: boolean
  /**
   * What the layers make of the coordinates, where these follow them.
   * @param wall  all linings together, m
   * @param depths  of the fills, bottom first, m; null: takes what is left
   */
  readonly fit?: (wall: number, depths: readonly (number | null)[]) => Fit
}

/** A place in the piece as shares of its bounding box: x across, y upward, z along; 0.5 is the middle. */
export interface Place {
  readonly x: number
  readonly y: number
  readonly z: number
}

/** Faces of a body through which heat passes in its model, each once, in a fixed order. */
export function elementaryFaces(body: Body): FaceName[] {
  const faces = body.axes.flatMap(({ low, high, idle }) =>
    idle === true ? [] : [low, high].filter((face) => face !== null),
  )
  return [...new Set(faces)]
}

/** Directions in which heat goes in a body's model: 1 to 3. */
export const dimensionsOf = (body: Body): number =>
  Math.max(1, body.mixed === true ? 1 : body.axes.filter(({ idle }) => idle !== true).length)

/** The face that is up at the start, on which a layer can be laid; null where there is none. */
export function topOf({ axes, stackAxis, invertedAtStart }: Body): FaceName | null {
  if (stackAxis === null) return null
  const axis = axes[stackAxis]!
  return invertedAtStart === true ? axis.low : axis.high
}

/** Whether a face lies at the end of an axis that may be left out. */
export const isLong = (body: Body, face: FaceName): boolean =>
  body.axes.some(({ low, high, long }) => long === true && (low === face || high === face))

/** Axis and end of an elementary face; undefined for one that the body doesn't have. */
export function endOf(body: Body, face: FaceName): { readonly axis: number; readonly end: 'low' | 'high' } | undefined {
  const axis = body.axes.findIndex(({ low, high }) => low === face || high === face)
  if (axis < 0) return undefined
  return { axis, end: body.axes[axis]!.high === face ? 'high' : 'low' }
}
