/**
 * Cell borders along one layer. Widths follow a smooth map, finest where something happens (an outer face, a
 * neighbour of another material): x(s) = L ((1 + b) s − b s²) keeps second order, which a jump in width would not.
 */

/** Contrast of the map: the widest cell is (1 + b)/(1 − b) times the finest, at most. */
const CONTRAST = 0.7

export interface Grading {
  /** Finest cells at the low end, at the high end. */
  readonly low: boolean
  readonly high: boolean
}

const towardsHigh = (s: number): number => (1 + CONTRAST) * s - CONTRAST * s * s

function map(s: number, { low, high }: Grading): number {
  if (low && high) {
    const u = 2 * s - 1
    return (1 + Math.sign(u) * towardsHigh(Math.abs(u))) / 2
  }
  if (high) return towardsHigh(s)
  if (low) return 1 - towardsHigh(1 - s)
  return s
}

/** Layers of so few cells are divided evenly: finer ends would only shorten the steps. */
const EVEN_UP_TO = 8

/** Whether a layer of these cells (counted over both of its halves) has finer ends. */
export const isGraded = (cellsOfBoth: number): boolean => cellsOfBoth > EVEN_UP_TO

/** Borders of `cells` cells from `from` to `to`, m. Shape: cells + 1; ends exact. */
export function gradedBorders(from: number, to: number, cells: number, grading: Grading): number[] {
  const borders: number[] = []
  for (let i = 0; i <= cells; i++) borders.push(i === cells ? to : from + (to - from) * map(i / cells, grading))
  return borders
}

/**
 * Cells for a layer: the whole axis would get `perHalf` cells on each side of its middle; a layer gets its share by
 * the square root of its thickness, because thin layers have steep courses. Even, and even after halving.
 */
export function cellsFor(thickness: number, axisLength: number, perHalf: number, oneSided: boolean): number {
  const whole = oneSided ? 2 * thickness : thickness
  const both = Math.max(4, 4 * Math.round((perHalf / 2) * Math.sqrt(Math.min(1, whole / axisLength))))
  return oneSided ? both / 2 : both
}
