import type { Area } from './cut-piece.ts'
import { onPaper, type Paper, type Point } from './outline.ts'

/** A number beside the drawing, tied to its layer by a line. */
export interface Balloon {
  readonly name: string
  readonly number: number
  readonly at: Point
  /** End of the line, inside the layer. */
  readonly to: Point
}

/** Radius of a balloon, px. */
export const BALLOON_RADIUS = 11.5
const LEAST_GAP = 30

const anchor = ({ figure, number }: Area, paper: Paper): Point => {
  const { x, y } = figure.anchor(number)
  return onPaper(paper, x, y)
}

/** Balloons in a column left of the piece, in the order of their layers, none on another. */
export function placeBalloons(areas: readonly Area[], paper: Paper, x: number, top: number, bottom: number): Balloon[] {
  const wanted = areas
    .map((area) => ({ area, to: anchor(area, paper) }))
    .sort((a, b) => a.to.y - b.to.y || a.area.number - b.area.number)
  const ys = spread(
    wanted.map(({ to }) => to.y),
    top + BALLOON_RADIUS,
    bottom - BALLOON_RADIUS,
  )
  return wanted.map(({ area, to }, i) => ({
    name: area.row.name,
    number: area.number,
    at: { x, y: ys[i] ?? to.y },
    to,
  }))
}

/** Rising positions as near as may be to those wanted, apart enough and within the ends where they fit. */
export function spread(wanted: readonly number[], top: number, bottom: number): number[] {
  const placed: number[] = []
  for (const y of wanted) {
    const previous = placed.at(-1)
    placed.push(Math.max(y, top, previous === undefined ? -Infinity : previous + LEAST_GAP))
  }
  let limit = Math.max(bottom, top + LEAST_GAP * (placed.length - 1))
  for (let i = placed.length - 1; i >= 0; i -= 1) {
    placed[i] = Math.min(placed[i] ?? limit, limit)
    limit = (placed[i] ?? limit) - LEAST_GAP
  }
  return placed
}
