import type { Plan } from '../../core/plan/schema/plan.ts'
import type { CutPiece } from './cut-piece.ts'
import { onPaper, type Paper, type Point } from './outline.ts'

/** The handle on the movable edge of the chosen layer. */
export interface Grip {
  readonly name: string
  readonly size: 'thickness' | 'diameter' | 'radius'
  readonly at: Point
  readonly axis: 'x' | 'y'
  /** mm that the value grows by when the handle moves one px to the right or downward. */
  readonly mmPerPx: number
  readonly path: string
  readonly value: number
}

/** The handle of the chosen layer: its thickness, or the size of the piece where it takes what is left. */
export function gripOf({ piece }: Plan, cut: CutPiece, paper: Paper, chosen: string | null): Grip | null {
  const area = cut.areas.find(({ row }) => row.name === chosen)
  if (area === undefined) return null
  const { row, figure, thickness } = area
  const perPx = 1 / paper.scale
  if (thickness !== null) {
    const { axis, moves, x, y } = figure.edge
    const mmPerPx = axis === 'x' ? moves * perPx : -moves * perPx
    const path = `${row.path}.thickness_mm`
    return { name: row.name, size: 'thickness', path, value: thickness, axis, mmPerPx, at: onPaper(paper, x, y) }
  }
  if (row.list !== 'fill') return null
  // the fill takes what is left: its edge moves with the whole piece, whose left end stays
  const { shape } = piece
  const right = { name: row.name, axis: 'x', at: onPaper(paper, cut.shape.right, cut.height / 2) } as const
  if ('diameter_mm' in shape && shape.diameter_mm !== undefined) {
    const path = 'piece.shape.diameter_mm'
    return { ...right, size: 'diameter', path, value: shape.diameter_mm, mmPerPx: perPx }
  }
  if (!('radius_mm' in shape)) return null
  return { ...right, size: 'radius', path: 'piece.shape.radius_mm', value: shape.radius_mm, mmPerPx: perPx / 2 }
}
