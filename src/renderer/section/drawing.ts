import type { Plan } from '../../core/plan/schema/plan.ts'
import { cutPiece } from './areas.ts'
import { type Balloon, placeBalloons } from './balloons.ts'
import type { Area, CutPiece } from './cut-piece.ts'
import { type Dimension, isSummed, placeDimensions } from './dimensions.ts'
import { type Grip, gripOf } from './grip.ts'
import { drawnThicker, onPaper, outlinePath, type Paper, type Point } from './outline.ts'
import { type ScaleBar, scaleBar } from './scale-bar.ts'

/** A cut layer on the paper. */
export interface DrawnArea {
  readonly name: string
  readonly number: number
  readonly material: string
  readonly mould: boolean
  readonly poured: boolean
  /** Whether it lies outside all that comes after it. */
  readonly around: boolean
  readonly path: string
  readonly thicker: boolean
}

export interface Drawing {
  readonly width: number
  readonly height: number
  readonly paper: Paper
  readonly piece: { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number }
  readonly areas: readonly DrawnArea[]
  readonly balloons: readonly Balloon[]
  readonly dimensions: readonly Dimension[]
  readonly centre: { readonly x: number; readonly top: number; readonly bottom: number } | null
  /** Left and right ends that go on beyond the drawing. */
  readonly breaks: readonly [number, number] | null
  /** Where the piece is cut, px across. */
  readonly cuts: readonly number[]
  readonly bar: ScaleBar
  readonly side: SideView | null
  readonly grip: Grip | null
  /** mm; what the piece measures as drawn. */
  readonly size: { readonly width: number; readonly height: number }
}

/** A small view from the side that shows the length. */
export interface SideView {
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
  readonly text: Point
  readonly value: number
  readonly path: string
  /** Where it is cut, px across. */
  readonly cuts: readonly number[]
}

export interface Wish {
  /** Room on the page, px. */
  readonly width: number
  /** Room for the piece's height, px. */
  readonly tallest: number
  readonly chosen: string | null
  readonly lengthUnit: 'mm' | 'cm' | 'in'
  /** Keeps the paper where it was while an edge is dragged. */
  readonly hold?: Paper | undefined
}

const LEFT = 50
const TOP = 48
const BELOW = 72
const WIDEST_SCALE = 3.2

/** Lays the cut piece out on paper, everything in px. */
export function drawPiece(plan: Plan, wish: Wish): Drawing {
  const cut = cutPiece(plan)
  const rightRoom = cut.stacked ? (isSummed(cut) ? 100 : 58) : 18
  const topRoom = cut.broken ? 18 : TOP
  const paper = wish.hold ?? fitPaper(cut, wish, rightRoom, topRoom)

  const low = onPaper(paper, cut.bounds.left, cut.bounds.bottom)
  const high = onPaper(paper, cut.bounds.right, cut.bounds.top)
  const column = { top: Math.min(high.y, topRoom) - 12, bottom: Math.max(low.y + 8, topRoom + 30 * cut.areas.length) }
  const side = sideView(plan, cut, wish.width, Math.max(low.y + 26, column.bottom))
  return {
    width: wish.width,
    height: Math.max(low.y, column.bottom - 20, (side?.text.y ?? 0) - BELOW + 18) + BELOW,
    paper,
    piece: {
      left: onPaper(paper, 0, 0).x,
      right: onPaper(paper, cut.width, 0).x,
      top: onPaper(paper, 0, cut.height).y,
      bottom: paper.base,
    },
    areas: cut.areas.map((area) => drawnArea(area, paper)),
    cuts: cut.cuts.across.map((x) => onPaper(paper, x, 0).x),
    balloons: placeBalloons(cut.areas, paper, 14, column.top, column.bottom),
    dimensions: placeDimensions(plan, cut, paper, wish.chosen, high.x + 16),
    centre: cut.centred ? { x: (low.x + high.x) / 2, top: high.y - 12, bottom: low.y + 12 } : null,
    breaks: cut.broken ? [low.x, high.x] : null,
    bar: scaleBar(paper.scale, wish.lengthUnit, { x: LEFT - 34, y: Math.max(low.y + 42, column.bottom + 24) }),
    side,
    grip: gripOf(plan, cut, paper, wish.chosen),
    size: { width: cut.width, height: cut.height },
  }
}

function fitPaper(cut: CutPiece, wish: Wish, rightRoom: number, topRoom: number): Paper {
  const { bounds } = cut
  const room = Math.max(60, wish.width - LEFT - rightRoom)
  const across = Math.max(1, bounds.right - bounds.left)
  const up = Math.max(1, bounds.top - bounds.bottom)
  const scale = Math.min(room / across, wish.tallest / up, WIDEST_SCALE)
  return {
    scale,
    left: LEFT + (room - across * scale) / 2 - bounds.left * scale,
    base: topRoom + bounds.top * scale,
  }
}

function drawnArea({ row, number, figure, thickness }: Area, paper: Paper): DrawnArea {
  return {
    name: row.name,
    number,
    material: row.material,
    mould: row.list === 'mould',
    poured: row.list === 'pour',
    around: row.list === 'mould' || row.list === 'coat',
    path: outlinePath(figure, paper),
    thicker: drawnThicker(thickness, paper),
  }
}

function sideView(plan: Plan, cut: CutPiece, width: number, top: number): SideView | null {
  const { shape } = plan.piece
  if (!('length_mm' in shape)) return null
  const scale = Math.min(104 / shape.length_mm, 30 / cut.height)
  const size = { width: Math.max(8, shape.length_mm * scale), height: Math.max(3, cut.height * scale) }
  const left = width - 20 - size.width
  return {
    left,
    top: top + 30 - size.height,
    ...size,
    text: { x: left + size.width / 2, y: top + 44 },
    value: shape.length_mm,
    path: 'piece.shape.length_mm',
    cuts: cut.cuts.along.map((share) => left + share * size.width),
  }
}

/** Where a place of the piece (shares of its box, y upward) lies on the paper. */
export function placeOnPaper(drawing: Drawing, place: { readonly x: number; readonly y: number }): Point {
  const { left, right, top, bottom } = drawing.piece
  return { x: left + place.x * (right - left), y: bottom - place.y * (bottom - top) }
}

/** The place of the piece that lies at a point of the paper; the inverse of `placeOnPaper`. */
export function spotOnPaper(drawing: Drawing, at: Point): { readonly x: number; readonly y: number } {
  const { left, right, top, bottom } = drawing.piece
  return { x: (at.x - left) / (right - left), y: (bottom - at.y) / (bottom - top) }
}
