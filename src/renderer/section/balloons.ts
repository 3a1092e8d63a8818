import type { Area } from './cut-piece.ts'
import { type Figure, halfWidthAt } from './figures.ts'
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

/** Balloons in a column left of the piece, in the order of their layers, none on another. */
export function placeBalloons(areas: readonly Area[], paper: Paper, x: number, top: number, bottom: number): Balloon[] {
  const wanted = areas
    .map((area) => ({ area, to: anchor(area.figure, area.number, paper) }))
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

/** A point within a layer: fills by their left quarter, walls in their left wall, rings at their left. */
function anchor(figure: Figure, number: number, paper: Paper): Point {
  switch (figure.kind) {
    case 'box': {
      const { left, right, bottom, top } = figure.box
      return onPaper(paper, left + (right - left) * 0.16, (bottom + top) / 2)
    }
    case 'cup': {
      const { outer, inner } = figure
      const share = 0.62 - 0.12 * (number % 3)
      if (inner.left > outer.left) {
        return onPaper(paper, (outer.left + inner.left) / 2, inner.bottom + (inner.top - inner.bottom) * share)
      }
      if (inner.bottom > outer.bottom)
        return onPaper(paper, outer.left + 8 / paper.scale, (outer.bottom + inner.bottom) / 2)
      if (outer.top > inner.top) return onPaper(paper, outer.left + 8 / paper.scale, (outer.top + inner.top) / 2)
      return onPaper(paper, (outer.right + inner.right) / 2, (inner.bottom + inner.top) / 2)
    }
    case 'ring': {
      const radius = (figure.outer + figure.inner) / 2
      const angle = Math.PI * (1 - 0.14 * (number - 1.5))
      return onPaper(paper, figure.x + radius * Math.cos(angle), figure.y + radius * Math.sin(angle))
    }
    case 'shell': {
      const { arc, reach } = figure
      const radius = (figure.outer + figure.inner) / 2
      const angle = reach * (0.84 - 0.12 * (number % 3))
      return onPaper(paper, arc.x - radius * Math.sin(angle), arc.y - arc.up * radius * Math.cos(angle))
    }
    case 'band': {
      const { arc, radius, low, high } = figure
      const middle = (low + high) / 2
      return onPaper(paper, arc.x - 0.68 * halfWidthAt(radius, middle), arc.y + arc.up * middle)
    }
    case 'joined':
      return anchor(figure.parts[0], number, paper)
  }
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
