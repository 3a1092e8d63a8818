import { assertNever } from '../../core/errors.ts'
import { buildBody } from '../../core/geometry/shapes/index.ts'
import { facesNamed } from '../../core/plan/face-names.ts'
import { laysOn } from '../../core/plan/laying.ts'
import type { Plan } from '../../core/plan/schema.ts'
import { type LayerRow, layerRows } from '../edits/layers.ts'
import { flatOf } from '../edits/shape.ts'
import { cutHalfRound } from './cut-half-round.ts'
import { withInserts } from './cut-inserts.ts'
import type { CutPiece, Layers, Numbered } from './cut-piece.ts'
import { cutRings } from './cut-rings.ts'
import { cutHoled, cutSheet, cutStack, cutVessel } from './cut-stack.ts'
import { cutTiers } from './cut-tiers.ts'
import { vesselSize } from './vessel-size.ts'

/** The section of a plan's piece as it is when everything has been poured, with what lies within its fills. */
export const cutPiece = (plan: Plan): CutPiece => withInserts(plan, cutLayers(plan))

function cutLayers(plan: Plan): CutPiece {
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
    case 'tiers':
      return cutTiers(shape.tiers, layers)
    case 'ring':
      return cutHoled(shape.outer_mm, shape.inner_mm, layers)
    case 'trough':
    case 'dome':
      return cutHalfRound(shape.radius_mm, flatOf(shape) === 'up' ? 1 : -1, layers)
    case 'log':
    case 'ball':
      return cutRings(shape.diameter_mm, layers)
    case 'shell':
      return cutRings(shape.diameter_mm, layers, shape.hollow_mm)
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
  const turned = turnedPours(plan)
  const of = (list: LayerRow['list']) => rows.filter(({ row }) => row.list === list)
  return {
    lining: of('lining').toReversed(),
    stacked: [
      ...of('fill').toSorted((a, b) => a.row.index - b.row.index),
      ...inOrder(of('pour').filter(({ row }) => !turned.has(row.name))),
    ],
    beneath: inOrder(of('pour').filter(({ row }) => turned.has(row.name))),
    mould: of('mould').map((wall) => ({
      ...wall,
      faces: new Set(facesNamed(body, plan.piece.mould?.[wall.row.index]?.faces ?? [])),
    })),
  }
}

/** Names of the layers that are poured while the piece lies upside down. */
function turnedPours({ stages }: Plan): ReadonlySet<string> {
  const names = new Set<string>()
  let turned = false
  for (const [s, { start = [] }] of stages.entries()) {
    for (const [a, action] of start.entries()) {
      if (action.do === 'turn') turned = !turned
      if (laysOn(action) && turned) names.add(`stages[${s}].start[${a}]`)
    }
  }
  return names
}

const order = ({ row }: Numbered): number => 1000 * (row.stage ?? 0) + row.index

const inOrder = (poured: readonly Numbered[]): Numbered[] => poured.toSorted((a, b) => order(a) - order(b))
