/** Lowest and highest coordinate of a cell along each axis. Shape: axes (1 to 3) */
export interface Box {
  readonly low: readonly number[]
  readonly high: readonly number[]
}

/**
 * An orthogonal coordinate system: exact cell volumes and face areas, and distances along an axis. Axes that a body
 * doesn't model count as one metre (or the whole turn, where the system is one of revolution).
 */
export interface Coordinates {
  readonly name: string
  /** m³ */
  volume(box: Box): number
  /** m², area of the coordinate surface `at` on `axis` within the box's other axes. */
  area(axis: number, at: number, box: Box): number
  /** m, length along `axis` between two coordinates in the middle of the box's other axes. */
  distance(axis: number, from: number, to: number, box: Box): number
  /**
   * Coordinates of a point given by its offset from the middle of the bounding box, m, for x, y, z; and back.
   * `size` is the length of every axis.
   */
  locate(offset: readonly [number, number, number], size: readonly number[], carries: readonly Carrier[]): number[]
  offset(at: readonly number[], size: readonly number[], carries: readonly Carrier[]): [number, number, number]
}

/** Which share of the bounding box an axis carries. */
export type Carrier = 'x' | 'y' | 'z'
export const carrierIndex: Readonly<Record<Carrier, 0 | 1 | 2>> = { x: 0, y: 1, z: 2 }
