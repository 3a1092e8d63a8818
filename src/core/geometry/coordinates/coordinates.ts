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
}
