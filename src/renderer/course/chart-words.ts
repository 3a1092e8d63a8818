import type { Forecast, LikelyCourse } from '../../core/forecast-types.ts'
import type { ChartFrame } from './chart-frame.ts'
import type { DangerWords } from './course-sentence.ts'
import { curveName } from './curve-style.ts'
import {
  type Box,
  type CurveLabel,
  clearestBox,
  distanceTo,
  type InkedCurve,
  inkCurve,
  inkVertical,
  labelHeight,
  labelWidth,
  overlaps,
  placeLabels,
} from './label-places.ts'
import { type LinearScale, toPixel } from './linear-scale.ts'
import type { TargetMark } from './target-marks.ts'

/* Places of all words in the plot: flags first, then the likely moments, the danger zone's lines, the curves' names. */

export interface Flag {
  readonly index: number
  readonly x: number
  readonly top: number
  /** Pixel of the asked temperature. */
  readonly foot: number
  readonly text: string
  readonly box: Box
  /** The words lie to the left of the flag. */
  readonly left: boolean
}

export interface Lozenge {
  readonly index: number
  readonly x: number
  readonly y: number
  readonly early: number
  /** Absent where the late end is open. */
  readonly late?: number
  /** Absent where there is no room. */
  readonly words?: { readonly text: string; readonly box: Box }
}

export interface DangerNote {
  readonly lines: readonly string[]
  readonly box: Box
}

export interface ChartWords {
  readonly flags: readonly Flag[]
  readonly lozenges: readonly Lozenge[]
  readonly danger?: DangerNote
  readonly labels: readonly CurveLabel[]
}

const flagWidth = 20
const rowHeight = 19

/** Where words of the plot may stand. */
const insideOf = ({ plot }: ChartFrame): Box => ({
  x: plot.left + 2,
  y: plot.top,
  width: plot.right - plot.left - 4,
  height: plot.bottom - plot.top,
})

/** The names of the curves alone, for a course of which no moment is told yet. */
export function curveNames(
  { times_h, curves }: Pick<LikelyCourse, 'times_h' | 'curves'>,
  keys: readonly string[],
  frame: ChartFrame,
  y: LinearScale,
): ChartWords {
  const inked = keys.map((key) => inkCurve(key, times_h, curves[key]!, frame.x, y))
  return { flags: [], lozenges: [], labels: placeLabels(inked, curveName, insideOf(frame), []) }
}

export function chartWords(
  forecast: Forecast,
  keys: readonly string[],
  marks: readonly TargetMark[],
  danger: DangerWords,
  frame: ChartFrame,
  y: LinearScale,
): ChartWords {
  const { wide, x } = frame
  const inside = insideOf(frame)
  const curves = keys.map((key) => inkCurve(key, forecast.times_h, forecast.curves[key]!, x, y))
  const flags = placeFlags(marks, frame, y)
  const taken: Box[] = flags.map((flag) => flag.box)
  const lines = [...curves, ...flags.map((flag) => inkVertical('asked', flag.x, flag.top, flag.foot))]
  const lozenges = marks.flatMap((mark): readonly Lozenge[] => {
    if (!mark.likely) return []
    const lozenge = placeLozenge(mark, mark.likely, frame, y, lines, taken, inside)
    taken.push({ x: lozenge.x - 8, y: lozenge.y - 8, width: 16, height: 16 })
    if (lozenge.words) taken.push(lozenge.words.box)
    return [lozenge]
  })
  const note = placeDanger(forecast, danger, wide, frame, y, lines, taken)
  if (note) taken.push(note.box)
  return { flags, lozenges, ...(note && { danger: note }), labels: placeLabels(curves, curveName, inside, taken) }
}

function placeFlags(marks: readonly TargetMark[], frame: ChartFrame, y: LinearScale): readonly Flag[] {
  const flags: Flag[] = []
  for (const mark of marks) {
    if (!mark.asked) continue
    const x = toPixel(frame.x, mark.asked.at_h)
    const { text, left } = flagWords(mark.asked.words.slice(frame.wide ? 0 : 1), x, frame)
    const width = labelWidth(text)
    const box = (row: number): Box => ({
      x: left ? x - flagWidth - width : x + 4,
      y: frame.plot.top + 4 + row * rowHeight,
      width: width + flagWidth,
      height: labelHeight,
    })
    let row = 0
    while (flags.some((flag) => overlaps(flag.box, box(row)))) row++
    flags.push({ index: mark.index, x, top: box(row).y, foot: toPixel(y, mark.T_C), text, box: box(row), left })
  }
  return flags
}

/** The longest words that fit beside the flag, to its left if they can. */
function flagWords(
  offered: readonly string[],
  x: number,
  frame: ChartFrame,
): { readonly text: string; readonly left: boolean } {
  for (const text of offered) {
    const width = labelWidth(text) + flagWidth
    if (x - width >= frame.plot.left + 4) return { text, left: true }
    if (x + width <= frame.plot.right - 4) return { text, left: false }
  }
  return { text: '', left: true }
}

const lifts = [-30, -44, -60, 34, 48, -80, 64]
const shifts = [0, -40, 40, -70, 70]

function placeLozenge(
  mark: TargetMark,
  likely: NonNullable<TargetMark['likely']>,
  frame: ChartFrame,
  y: LinearScale,
  curves: readonly InkedCurve[],
  taken: readonly Box[],
  inside: Box,
): Lozenge {
  const at = { x: toPixel(frame.x, likely.at_h), y: toPixel(y, mark.T_C) }
  const width = labelWidth(likely.words)
  const offered = lifts.flatMap((lift) =>
    shifts.map((shift): Box => {
      const x = at.x + shift - width / 2
      return { x, y: at.y + lift - labelHeight / 2, width, height: labelHeight }
    }),
  )
  const within = offered.filter(
    (box) =>
      box.x >= inside.x &&
      box.x + box.width <= inside.x + inside.width &&
      box.y >= inside.y &&
      box.y + box.height <= inside.y + inside.height,
  )
  const box = frame.wide ? clearestBox(within, curves, taken) : undefined
  return {
    index: mark.index,
    ...at,
    early: Math.max(frame.plot.left, toPixel(frame.x, likely.early_h)),
    ...(likely.late_h !== undefined && { late: Math.min(frame.plot.right, toPixel(frame.x, likely.late_h)) }),
    ...(box && { words: { text: likely.words, box } }),
  }
}

function placeDanger(
  forecast: Forecast,
  words: DangerWords,
  wide: boolean,
  frame: ChartFrame,
  y: LinearScale,
  curves: readonly InkedCurve[],
  taken: readonly Box[],
): DangerNote | undefined {
  const top = Math.max(frame.plot.top, toPixel(y, forecast.danger.high_C))
  const bottom = Math.min(frame.plot.bottom, toPixel(y, forecast.danger.low_C))
  // From much to little: the first that stands clear; the zone's name alone rather than words upon words.
  const offered = [[words.title, wide ? words.long : words.short], [words.title, words.short], [words.title]]
  let fallback: DangerNote | undefined
  for (const lines of offered) {
    const note = dangerNote(lines, top, bottom, frame, curves, taken)
    if (!note || taken.some((other) => overlaps(note.box, other, 4))) continue
    if (curves.every((curve) => distanceTo(curve, note.box) > 1)) return note
    fallback = note
  }
  return fallback
}

function dangerNote(
  lines: readonly string[],
  top: number,
  bottom: number,
  frame: ChartFrame,
  curves: readonly InkedCurve[],
  taken: readonly Box[],
): DangerNote | undefined {
  const height = lines.length * rowHeight
  const width = Math.max(...lines.map((line) => labelWidth(line)))
  const [leftmost, rightmost] = [frame.plot.left + 10, frame.plot.right - 10 - width]
  if (bottom - top < height + 4 || rightmost < leftmost) return undefined
  const rows = [top + 8, bottom - height - 6, (top + bottom - height) / 2].filter((row) => row >= top)
  const columns = [0, 0.2, 0.4, 0.6, 0.8, 1].map((share) => rightmost - share * (rightmost - leftmost))
  const offered = rows.flatMap((row) => columns.map((x): Box => ({ x, y: row, width, height })))
  const box = clearestBox(offered, curves, taken)
  return box && { lines, box }
}
