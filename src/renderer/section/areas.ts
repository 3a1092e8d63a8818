import { buildBody } from '../../core/geometry/shapes/index.ts'
import { facesNamed } from '../../core/plan/face-names.ts'
import type { Plan } from '../../core/plan/schema.ts'
import { type LayerRow, layerRows } from '../edits/layers.ts'

/** Millimetres, x to the right and y upward from the lower left corner of the piece. */
export interface Box {
  readonly left: number
  readonly bottom: number
  readonly right: number
  readonly top: number
}

/** The outline of one cut layer: a box, a cup open at its top (outer less inner), or a ring (a disc when inner is 0). */
export type Figure =
  | { readonly kind: 'box'; readonly box: Box }
  | { readonly kind: 'cup'; readonly outer: Box; readonly inner: Box }
  | { readonly kind: 'ring'; readonly x: number; readonly y: number; readonly outer: number; readonly inner: number }

/** A layer as it shows where the piece is cut. */
export interface Area {
  readonly row: LayerRow
  /** Place of the layer in the list, from 1. */
  readonly number: number
  readonly figure: Figure
  /** The layer's own thickness, mm; null for the fill that takes what is left. */
  readonly thickness: number | null
}

/** The cut piece with its mould, before it is put on paper. */
export interface CutPiece {
  readonly width: number
  readonly height: number
  /** True where the piece goes on beyond what is drawn. */
  readonly broken: boolean
  /** Round about an upright axis, or symmetrical enough to have a centre line. */
  readonly centred: boolean
  /** Outside first. */
  readonly areas: readonly Area[]
  /** With the mould. */
  readonly bounds: Box
}

/** A sheet is drawn this many times as wide as it is high; it has no width of its own. */
const SHEET_ASPECT = 2.6

/** The section of a plan's piece as it is when everything has been poured. */
export function cutPiece(plan: Plan): CutPiece {
  const rows = layerRows(plan).map((row, i) => ({ row, number: i + 1 }))
  const of = (list: LayerRow['list']) => rows.filter(({ row }) => row.list === list)
  const stacked = [...of('fill'), ...of('pour')].sort((a, b) => order(a.row) - order(b.row))
  const lining = of('lining').toReversed()
  const { shape } = plan.piece
  return shape.kind === 'ball'
    ? cutBall(plan, shape.diameter_mm, lining, stacked, of('mould'))
    : cutStack(plan, lining, stacked, of('mould'))
}

type Numbered = { readonly row: LayerRow; readonly number: number }

const order = (row: LayerRow): number => (row.list === 'fill' ? row.index : 1000 * (1 + (row.stage ?? 0)) + row.index)

const thick = (row: LayerRow): number => row.thickness_mm ?? 0

function cutStack(plan: Plan, lining: Numbered[], stacked: Numbered[], mould: Numbered[]): CutPiece {
  const { shape } = plan.piece
  const lined = lining.reduce((sum, { row }) => sum + thick(row), 0)
  const height = lined + stacked.reduce((sum, { row }) => sum + thick(row), 0)
  const broken = shape.kind === 'sheet'
  const width =
    'width_mm' in shape ? shape.width_mm : 'diameter_mm' in shape ? shape.diameter_mm : height * SHEET_ASPECT
  const whole: Box = { left: 0, bottom: 0, right: width, top: height }
  const areas: Area[] = []

  let outer = whole
  for (const { row, number } of lining) {
    const t = thick(row)
    const side = broken ? 0 : t
    const inner: Box = { left: outer.left + side, bottom: outer.bottom + t, right: outer.right - side, top: height }
    const figure: Figure = broken
      ? { kind: 'box', box: { ...outer, top: outer.bottom + t } }
      : { kind: 'cup', outer, inner }
    areas.push({ row, number, figure, thickness: t })
    outer = inner
  }

  let bottom = lined
  for (const { row, number } of stacked) {
    const top = bottom + thick(row)
    areas.push({ row, number, figure: { kind: 'box', box: { ...outer, bottom, top } }, thickness: thick(row) })
    bottom = top
  }

  const walls = mouldWalls(plan, mould, whole)
  return { width, height, broken, centred: !broken, areas: [...walls.areas, ...areas], bounds: walls.bounds }
}

function mouldWalls(plan: Plan, mould: Numbered[], whole: Box): { areas: Area[]; bounds: Box } {
  const body = buildBody(plan.piece.shape)
  const areas: Area[] = []
  let inner = whole
  for (const { row, number } of mould) {
    const faces = new Set(facesNamed(body, plan.piece.mould?.[row.index]?.faces ?? []))
    const t = thick(row)
    const side = faces.has('sides')
    const outer: Box = {
      left: inner.left - (side || faces.has('left') ? t : 0),
      bottom: inner.bottom - (faces.has('bottom') ? t : 0),
      right: inner.right + (side || faces.has('right') ? t : 0),
      top: inner.top + (faces.has('top') ? t : 0),
    }
    areas.push({ row, number, figure: { kind: 'cup', outer, inner }, thickness: t })
    inner = outer
  }
  return { areas: areas.toReversed(), bounds: inner }
}

function cutBall(plan: Plan, diameter: number, lining: Numbered[], fill: Numbered[], mould: Numbered[]): CutPiece {
  const radius = diameter / 2
  const areas: Area[] = []
  const ring = ({ row, number }: Numbered, outer: number, inner: number, thickness: number | null): void => {
    areas.push({
      row,
      number,
      thickness,
      figure: { kind: 'ring', x: radius, y: radius, outer, inner: Math.max(0, inner) },
    })
  }
  let outside = radius
  for (const wall of mould) outside += coversBall(plan, wall.row) ? thick(wall.row) : 0
  let outer = outside
  for (const wall of mould.toReversed()) {
    if (!coversBall(plan, wall.row)) continue
    ring(wall, outer, outer - thick(wall.row), thick(wall.row))
    outer -= thick(wall.row)
  }
  for (const layer of lining) {
    ring(layer, outer, outer - thick(layer.row), thick(layer.row))
    outer = Math.max(0, outer - thick(layer.row))
  }
  for (const layer of fill.slice(0, 1)) ring(layer, outer, 0, null)
  const bounds = { left: radius - outside, bottom: radius - outside, right: radius + outside, top: radius + outside }
  return { width: diameter, height: diameter, broken: false, centred: true, areas, bounds }
}

const coversBall = (plan: Plan, row: LayerRow): boolean =>
  facesNamed(buildBody(plan.piece.shape), plan.piece.mould?.[row.index]?.faces ?? []).includes('curved')
