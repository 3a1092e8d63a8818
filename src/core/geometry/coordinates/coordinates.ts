/** Lowest and highest coordinate of a cell along each axis. Shape: axes (1 to 3) */
export interface Box {
  readonly low: readonly number[]
  readonly high: readonly number[]
}

/** A point in space, m: x across, y upward, z along. */
export type Point = readonly [x: number, y: number, z: number]

/** The smallest upright box around something, m. */
export interface Bounds {
  readonly low: Point
  readonly high: Point
}

/**
 * A coordinate system that fits a shape: exact cell volumes and face areas, and distances along an axis. An axis that
 * a system doesn't have (a turn about an axis of revolution) counts whole.
 */
export interface Coordinates {
  readonly name: string
  /** m³ */
  volume(box: Box): number
  /** m², area of the coordinate surface `at` on `axis` within the box's other axes. */
  area(axis: number, at: number, box: Box): number
  /** m, between two coordinate surfaces of `axis` in the middle of the box's other axes, square to them. */
  distance(axis: number, from: number, to: number, box: Box): number
  /** The point at mesh coordinates; missing ones count as nothing. */
  toSpace(at: readonly number[]): Point
  /** Mesh coordinates of a point; of points that a symmetry makes equal those of the modelled one. */
  fromSpace(point: Point): number[]
  /** Box around everything between two corners, its mirror image and its turn included. */
  bounds(box: Box): Bounds
  /** m, how far a place lies from the surface `at` on `axis`; the way along the axis where left out. */
  depth?(axis: number, at: number, place: readonly number[]): number
  /**
   * Where axes 0 and 1 don't cross at right angles: what a unit step along one pulls the other way at a corner of
   * cells, m per index of each; 0 or absent where they do. Never negative: the angle opens the same way everywhere.
   */
  skew?(at: readonly [number, number], box: Box): number
  /**
   * How the section that is drawn follows from axes 0 and 1: a half of it, drawn to both sides of x = 0 (`twice`), or a
   * radius alone, all the way round (`around`); the section itself where absent.
   */
  readonly drawn?: 'twice' | 'around'
  /** Axis that turns about the pole of axis 0, as far as it does. */
  readonly fan?: { readonly axis: number; readonly to: number }
}

/** Which share of the bounding box an axis carries. */
export type Carrier = 'x' | 'y' | 'z'
export const carrierIndex: Readonly<Record<Carrier, 0 | 1 | 2>> = { x: 0, y: 1, z: 2 }
