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
/** Least distance between labels, which are wider than high. */
const apart = 26
const flattening = 0.6
const candidates = 24

/**
 * One label a value, on its longest line, where it is farthest from labels already there and from the points to be
 * kept clear; none where the line is short or all places are crowded.
 */
export function placeContourLabels(
  contours: readonly ScreenLines[],
  clear: readonly Point[],
  frame: { readonly width: number; readonly height: number },
): readonly ContourLabel[] {
  const inside = ({ x, y }: Point): boolean => x > 18 && x < frame.width - 18 && y > 13 && y < frame.height - 11
  const labels: ContourLabel[] = []
  for (const { value, step, lines } of contours) {
    const line = longest(lines)
    if (!line) continue
    let best: ContourLabel | undefined
    let most = apart
    // Not at the ends, which may lie on the rim.
    for (let candidate = 2; candidate < candidates - 1; candidate++) {
      const point = pointAlong(line, candidate / candidates)
      const distance = Math.min(
        200,
        ...[...labels, ...clear].map((other) => Math.hypot((other.x - point.x) * flattening, other.y - point.y)),
      )
      // The lower half reads first: the sign and its words stand higher as a rule.
      const score = distance + point.y * 0.05
      if (inside(point) && distance > apart && score > most) {
        most = score
        best = { value, step, x: point.x, y: point.y }
      }
    }
    if (best) labels.push(best)
  }
  return labels
}

interface MeasuredLine {
  readonly line: ContourLine
  /** Length from the beginning to each point, px. */
  readonly lengths: readonly number[]
}

function longest(lines: readonly ContourLine[]): MeasuredLine | undefined {
  let best: MeasuredLine | undefined
  let most = shortest
  for (const line of lines) {
    let length = 0
    const lengths = line.map((point, index) => {
      const before = line[index - 1]
      if (before) length += Math.hypot(point.x - before.x, point.y - before.y)
      return length
    })
    if (length > most) [best, most] = [{ line, lengths }, length]
  }
  return best
}

/** The point at a share of the line's length. */
function pointAlong({ line, lengths }: MeasuredLine, share: number): Point {
  const at = share * lengths.at(-1)!
  const after = Math.max(
    1,
    lengths.findIndex((length) => length >= at),
  )
  const [from, to] = [line[after - 1]!, line[after]!]
  const span = lengths[after]! - lengths[after - 1]!
  const part = span === 0 ? 0 : (at - lengths[after - 1]!) / span
  return { x: from.x + part * (to.x - from.x), y: from.y + part * (to.y - from.y) }
}
