import type { ContourLine } from './contours.ts'
import type { Point } from './section-shape.ts'

/** A value on its line, px. */
export interface ContourLabel {
  readonly value: number
  readonly step: number
  readonly x: number
  readonly y: number
}

/** Lines of one value on the screen, px. */
export interface ScreenLines {
  readonly value: number
  readonly step: number
  readonly lines: readonly ContourLine[]
}

const shortest = 44
const apart = 26
const candidates = 24

/**
 * One label a value, on its longest line, where it is farthest from labels already there and from the points to be
 * kept clear; none where the line is short or all places are crowded.
 */
export function placeContourLabels(contours: readonly ScreenLines[], clear: readonly Point[]): readonly ContourLabel[] {
  const labels: ContourLabel[] = []
  for (const { value, step, lines } of contours) {
    const line = longest(lines)
    if (!line) continue
    let best: ContourLabel | undefined
    let most = apart
    for (let candidate = 1; candidate < candidates; candidate++) {
      const point = line[Math.round(((line.length - 1) * candidate) / candidates)]!
      const distance = Math.min(
        200,
        ...[...labels, ...clear].map((other) => Math.hypot(other.x - point.x, other.y - point.y)),
      )
      // The lower half reads first: the sign and its words stand higher as a rule.
      const score = distance + point.y * 0.05
      if (distance > apart && score > most) {
        most = score
        best = { value, step, x: point.x, y: point.y }
      }
    }
    if (best) labels.push(best)
  }
  return labels
}

function longest(lines: readonly ContourLine[]): ContourLine | undefined {
  let best: ContourLine | undefined
  let most = shortest
  for (const line of lines) {
    const length = line.reduce((sum, point, index) => {
      const before = line[index - 1]
      return before ? sum + Math.hypot(point.x - before.x, point.y - before.y) : 0
    }, 0)
    if (length > most) [best, most] = [line, length]
  }
  return best
}
