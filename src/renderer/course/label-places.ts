import { type LinearScale, toPixel } from './linear-scale.ts'
import { type CurveValue, readCurve } from './read-curve.ts'

/* Finds places where words stand clear of the curves. Pixels throughout, y downward. */

export interface Box {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

/** A curve as columns of pixels: the highest and lowest point within each, so that jumps count too. */
export interface InkedCurve {
  readonly key: string
  readonly left: number
  /** Shape: columns of `columnWidth`; NaN where the curve is not. */
  readonly top: Float64Array
  readonly bottom: Float64Array
}

const columnWidth = 4

/** Pixels of the curve's columns between the ends of the time scale. */
export function inkCurve(
  key: string,
  times_h: readonly number[],
  values: readonly CurveValue[],
  x: LinearScale,
  y: LinearScale,
): InkedCurve {
  const columns = Math.max(1, Math.ceil((x.end - x.start) / columnWidth))
  const top = new Float64Array(columns).fill(Number.NaN)
  const bottom = new Float64Array(columns).fill(Number.NaN)
  const ink = (column: number, value: CurveValue): void => {
    if (value === null || column < 0 || column >= columns) return
    const pixel = toPixel(y, value)
    if (!(top[column]! <= pixel)) top[column] = pixel
    if (!(bottom[column]! >= pixel)) bottom[column] = pixel
  }
  const hoursPerColumn = ((x.to - x.from) / (x.end - x.start)) * columnWidth
  for (let column = 0; column < columns; column++) {
    ink(column, readCurve(times_h, values, x.from + column * hoursPerColumn))
    ink(column, readCurve(times_h, values, Math.min(x.to, x.from + (column + 1) * hoursPerColumn)))
  }
  times_h.forEach((time, index) => {
    ink(Math.floor((time - x.from) / hoursPerColumn), values[index] ?? null)
  })
  return { key, left: x.start, top, bottom }
}

/** A vertical line, such as that of a flag, as something to keep clear of. */
export function inkVertical(key: string, at: number, top: number, bottom: number): InkedCurve {
  return { key, left: at - columnWidth / 2, top: Float64Array.of(top), bottom: Float64Array.of(bottom) }
}

/** Pixels between a box and the nearest point of a curve, at most `far`; 0 where they touch. */
export function distanceTo(curve: InkedCurve, box: Box, far = 60): number {
  const first = Math.max(0, Math.floor((box.x - far - curve.left) / columnWidth))
  const last = Math.min(curve.top.length - 1, Math.ceil((box.x + box.width + far - curve.left) / columnWidth))
  let square = far * far
  for (let column = first; column <= last; column++) {
    const top = curve.top[column]!
    if (Number.isNaN(top)) continue
    const x = curve.left + (column + 0.5) * columnWidth
    const across = Math.max(box.x - x, x - (box.x + box.width), 0)
    const along = Math.max(box.y - curve.bottom[column]!, top - (box.y + box.height), 0)
    square = Math.min(square, across * across + along * along)
  }
  return Math.sqrt(square)
}

export const overlaps = (a: Box, b: Box, gap = 0): boolean =>
  a.x < b.x + b.width + gap && b.x < a.x + a.width + gap && a.y < b.y + b.height + gap && b.y < a.y + a.height + gap

const inside = (box: Box, frame: Box): boolean =>
  box.x >= frame.x &&
  box.y >= frame.y &&
  box.x + box.width <= frame.x + frame.width &&
  box.y + box.height <= frame.y + frame.height

export interface CurveLabel {
  readonly key: string
  readonly text: string
  /** Where the leader leaves the curve. */
  readonly anchor: { readonly x: number; readonly y: number }
  readonly box: Box
  /** The label lies to the right of its anchor. */
  readonly right: boolean
}

export const labelHeight = 18
/** Lengths of leaders, px; a longer one must earn its length. */
const leaders = [14, 26, 42] as const
const candidates = 40

/** Width of a label of 14 px, near enough to keep labels apart. */
export const labelWidth = (text: string, size = 14): number => text.length * size * 0.56 + 2

/**
 * Labels with a leader, one a curve: of 40 places along it and four sides each, the one whose words and whose anchor
 * lie farthest from all other lines, off its own line and off what else is written.
 */
export function placeLabels(
  curves: readonly InkedCurve[],
  nameOf: (key: string) => string,
  frame: Box,
  taken: readonly Box[],
): readonly CurveLabel[] {
  const labels: CurveLabel[] = []
  for (const curve of curves) {
    const others = curves.filter((other) => other !== curve)
    const written = [...taken, ...labels.flatMap((label) => [label.box, leaderBox(label)])]
    const label = bestLabel(curve, others, nameOf(curve.key), frame, written)
    if (label) labels.push(label)
  }
  return labels
}

/** The middle of a leader, which other words must not cover. */
function leaderBox({ anchor, box, right }: CurveLabel): Box {
  const end = { x: right ? box.x : box.x + box.width, y: box.y + box.height / 2 }
  return { x: (anchor.x + end.x) / 2 - 4, y: (anchor.y + end.y) / 2 - 4, width: 8, height: 8 }
}

function bestLabel(
  curve: InkedCurve,
  others: readonly InkedCurve[],
  text: string,
  frame: Box,
  written: readonly Box[],
): CurveLabel | undefined {
  let best: CurveLabel | undefined
  let most = Number.NEGATIVE_INFINITY
  const width = labelWidth(text)
  for (let candidate = 1; candidate <= candidates; candidate++) {
    const column = Math.floor((curve.top.length * candidate) / (candidates + 1))
    const top = curve.top[column]!
    if (Number.isNaN(top)) continue
    const anchor = { x: curve.left + (column + 0.5) * columnWidth, y: (top + curve.bottom[column]!) / 2 }
    const clearAnchor = nearest(others, { x: anchor.x, y: anchor.y, width: 0, height: 0 })
    for (const { box, right, length } of offeredBoxes(anchor, width)) {
      if (!inside(box, frame) || written.some((other) => overlaps(box, other, 4))) continue
      const score = clearance(curve, others, box) + 0.6 * Math.min(40, clearAnchor) - length / 3
      if (score <= most) continue
      most = score
      best = { key: curve.key, text, anchor, box, right }
    }
  }
  return best
}

function offeredBoxes(
  anchor: { readonly x: number; readonly y: number },
  width: number,
): readonly { readonly box: Box; readonly right: boolean; readonly length: number }[] {
  return leaders.flatMap((length) =>
    [true, false].flatMap((right) =>
      [-1, 1].map((side) => ({
        right,
        length,
        box: {
          x: right ? anchor.x + length + 2 : anchor.x - length - 2 - width,
          y: anchor.y + side * length - labelHeight / 2,
          width,
          height: labelHeight,
        },
      })),
    ),
  )
}

/** Words that touch any line are hard to read, so touching costs more than any distance gains. */
function clearance(curve: InkedCurve, others: readonly InkedCurve[], box: Box): number {
  const own = distanceTo(curve, box, 12)
  const other = Math.min(40, nearest(others, box))
  return other + own - (own < 3 ? 60 : 0) - (other < 3 ? 60 : 0)
}

const nearest = (curves: readonly InkedCurve[], box: Box): number =>
  curves.reduce((least, curve) => Math.min(least, distanceTo(curve, box)), 60)

/** Of the boxes offered, the one clearest of curves and of what is written; the first where all are equally good. */
export function clearestBox(
  offered: readonly Box[],
  curves: readonly InkedCurve[],
  written: readonly Box[],
): Box | undefined {
  let best: Box | undefined
  let most = Number.NEGATIVE_INFINITY
  for (const box of offered) {
    const clear = Math.min(14, nearest(curves, box)) - (written.some((other) => overlaps(box, other, 4)) ? 100 : 0)
    if (clear > most) [best, most] = [box, clear]
  }
  return best
}
