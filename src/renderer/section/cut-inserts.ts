import { buildBody } from '../../core/geometry/shapes/index.ts'
import { marginsOf } from '../../core/plan/margins.ts'
import type { Plan } from '../../core/plan/schema.ts'
import { layerRows } from '../edits/layers.ts'
import type { Area, CutPiece } from './cut-piece.ts'
import { type BandFigure, type BoxFigure, type Figure, mirrored } from './figures.ts'

type Margins = Readonly<Record<string, number>>

/** The cut piece with a core in each fill that has one, right after that fill. */
export function withInserts(plan: Plan, cut: CutPiece): CutPiece {
  const { inserts = [] } = plan.piece
  if (inserts.length === 0) return cut
  const body = buildBody(plan.piece.shape)
  const rows = layerRows(plan)
  const cores = inserts.flatMap(({ within = 0, margin_mm }, index) => {
    const at = rows.findIndex(({ name }) => name === `inserts[${index}]`)
    const around = cut.areas.find(({ row }) => row.name === `fill[${within}]`)
    const row = rows[at]
    if (row === undefined || around === undefined) return []
    const figure = coreIn(around.figure, marginsOf(body, margin_mm), cut.width / 2)
    return figure === null ? [] : [{ after: around, area: { row, number: at + 1, figure, thickness: null } }]
  })
  const areas = cut.areas.flatMap((area): Area[] => [
    area,
    ...cores.filter(({ after }) => after === area).map((core) => core.area),
  ])
  return { ...cut, areas }
}

/** What a fill's outline leaves within its margins; null where it is not told by such an outline. */
function coreIn(figure: Figure, margins: Margins, axis: number): Figure | null {
  switch (figure.kind) {
    case 'box':
      return boxWithin(figure, margins, ['left', 'sides'])
    case 'joined': {
      const half = figure.parts[1]
      if (half?.kind !== 'box' || figure.parts.length !== 2) return null
      const core = boxWithin(half, margins, ['inner'])
      return core === null ? null : { kind: 'joined', parts: [{ kind: 'box', box: mirrored(core.box, axis) }, core] }
    }
    case 'ring': {
      const outer = figure.outer - (margins.curved ?? 0)
      return outer <= figure.inner ? null : { ...figure, outer }
    }
    case 'band':
      return bandWithin(figure, margins)
    case 'cup':
    case 'shell':
      return null
  }
}

function boxWithin({ box }: BoxFigure, margins: Margins, leftNames: readonly string[]): BoxFigure | null {
  const of = (...names: readonly string[]): number =>
    margins[names.find((name) => margins[name] !== undefined) ?? ''] ?? 0
  const core = {
    left: box.left + of(...leftNames),
    right: box.right - of('right', 'sides'),
    bottom: box.bottom + of('bottom'),
    top: box.top - of('top'),
  }
  return core.left < core.right && core.bottom < core.top ? { kind: 'box', box: core } : null
}

/** Of the fill in the crown: the same segment, smaller, about the middle of its level side. */
function bandWithin({ kind, arc, radius, low, high }: BandFigure, margins: Margins): BandFigure | null {
  if (low > 1e-9 - radius) return null
  const level = high - (margins[arc.up === 1 ? 'top' : 'bottom'] ?? 0)
  const share = 1 - (margins.curved ?? 0) / radius
  if (share <= 0 || level <= low) return null
  const core = { kind, radius: radius * share, low: -radius * share }
  if (level > 0) return { ...core, arc, high: level }
  return { ...core, arc: { ...arc, y: arc.y + arc.up * level * (1 - share) }, high: level * share }
}
