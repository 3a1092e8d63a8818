import { drawnPiece } from '../../core/plan/drawn-piece.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { toMm } from '../../core/units.ts'
import { layerRows } from '../edits/layers.ts'
import type { Area, CutPiece } from './cut-piece.ts'
import { type Frame, figureOf, frameOf, placedLoops, placingOf } from './figures.ts'

/** The section of a plan's piece as it is when everything has been laid on it, with what lies within its fills. */
export function cutPiece(plan: Plan): CutPiece {
  const piece = drawnPiece(plan)
  const placing = placingOf(piece)
  const rows = layerRows(plan)
  const areas = piece.layers.flatMap((layer): Area[] => {
    const at = rows.findIndex(({ name }) => name === layer.name)
    const row = rows[at]
    const figure = figureOf(placing, layer)
    if (row === undefined || figure === null) return []
    const thickness = layer.kind === 'insert' ? null : (row.thickness_mm ?? null)
    return [{ row, number: at + 1, figure, thickness }]
  })
  const whole = frameOf(placedLoops(placing, piece.whole))
  const shape = frameOf(placedLoops(placing, piece.shape))
  const bounds = areas.map(({ figure }) => frameOf(figure.loops(0))).reduce(around, whole)
  return {
    width: whole.right,
    height: whole.top,
    broken: piece.endless,
    centred: !piece.endless,
    stacked: piece.coordinates.drawn !== 'around',
    flatUp: !piece.upsideDown,
    areas,
    shape,
    bounds,
    ...(piece.body.tiers === undefined ? {} : { tiers: tierHeights(piece.body.tiers, shape) }),
    cuts: {
      across: piece.cuts.across.map((share) => shape.left + share * (shape.right - shape.left)),
      along: piece.cuts.along,
    },
  }
}

const around = (one: Frame, other: Frame): Frame => ({
  left: Math.min(one.left, other.left),
  bottom: Math.min(one.bottom, other.bottom),
  right: Math.max(one.right, other.right),
  top: Math.max(one.top, other.top),
})

/** Where each tier begins, and where the uppermost ends. */
function tierHeights(tiers: readonly { readonly height: number }[], { bottom, top }: Frame): number[] {
  let at = bottom
  const heights = tiers.slice(0, -1).map(({ height }) => {
    at += toMm(height)
    return at
  })
  return [bottom, ...heights, top]
}
