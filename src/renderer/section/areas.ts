import { assertNever } from '../../core/errors.ts'
import { buildBody } from '../../core/geometry/shapes/index.ts'
import { facesNamed } from '../../core/plan/face-names.ts'
import type { Plan } from '../../core/plan/schema.ts'
import { type LayerRow, layerRows } from '../edits/layers.ts'
import { flatOf } from '../edits/shape.ts'
import { cutHalfRound } from './cut-half-round.ts'
import type { CutPiece, Layers } from './cut-piece.ts'
import { cutRings } from './cut-rings.ts'
import { cutHoled, cutSheet, cutStack, cutVessel } from './cut-stack.ts'
import { vesselSize } from './vessel-size.ts'

/** The section of a plan's piece as it is when everything has been poured. */
export function cutPiece(plan: Plan): CutPiece {
  const { shape } = plan.piece
  const layers = layersOf(plan)
  switch (shape.kind) {
    case 'sheet':
      return cutSheet(layers)
    case 'bar':
    case 'block':
      return cutStack(shape.width_mm, layers)
    case 'round':
      return cutStack(shape.diameter_mm, layers)
    case 'ring':
      return cutHoled(shape.outer_mm, shape.inner_mm, layers)
    case 'trough':
    case 'dome':
      return cutHalfRound(shape.radius_mm, flatOf(shape) === 'up' ? 1 : -1, layers)
    case 'log':
    case 'ball':
      return cutRings(shape.diameter_mm, layers)
    case 'stirred': {
      const { diameter, height } = vesselSize(shape)
      return cutVessel(diameter, height, layers)
    }
    default:
      return assertNever(shape)
  }
}

function layersOf(plan: Plan): Layers {
  const body = buildBody(plan.piece.shape)
  const rows = layerRows(plan).map((row, i) => ({ row, number: i + 1 }))
  const of = (list: LayerRow['list']) => rows.filter(({ row }) => row.list === list)
  return {
    lining: of('lining').toReversed(),
    stacked: [...of('fill'), ...of('pour')].sort((a, b) => order(a.row) - order(b.row)),
    mould: of('mould').map((wall) => ({
      ...wall,
      faces: new Set(facesNamed(body, plan.piece.mould?.[wall.row.index]?.faces ?? [])),
    })),
  }
}

const order = (row: LayerRow): number => (row.list === 'fill' ? row.index : 1000 * (1 + (row.stage ?? 0)) + row.index)
