import type { Plan } from '../../core/plan/schema.ts'
import type { CutPiece } from './cut-piece.ts'
import type { Figure } from './figures.ts'
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

type Edge = Pick<Grip, 'at' | 'axis' | 'mmPerPx'>

/** The handle of the chosen layer: its thickness, or the size of the piece where it takes what is left. */
export function gripOf({ piece }: Plan, cut: CutPiece, paper: Paper, chosen: string | null): Grip | null {
  const area = cut.areas.find(({ row }) => row.name === chosen)
  if (area === undefined) return null
  const { row, figure, thickness } = area
  if (thickness !== null) {
    const edge = edgeOf(figure, paper, row.list === 'mould')
    return { name: row.name, size: 'thickness', path: `${row.path}.thickness_mm`, value: thickness, ...edge }
  }
  if (row.list === 'insert') return null
  // the fill takes what is left: its edge moves with the whole piece, whose left end stays
  const { shape } = piece
  const right = { name: row.name, axis: 'x', at: onPaper(paper, cut.width, cut.height / 2) } as const
  if ('diameter_mm' in shape && shape.diameter_mm !== undefined) {
    const path = 'piece.shape.diameter_mm'
    return { ...right, size: 'diameter', path, value: shape.diameter_mm, mmPerPx: 1 / paper.scale }
  }
  if (!('radius_mm' in shape)) return null
  return {
    ...right,
    size: 'radius',
    path: 'piece.shape.radius_mm',
    value: shape.radius_mm,
    mmPerPx: 0.5 / paper.scale,
  }
}

/** The edge that moves when the layer grows, as the piece stays on its base and the mould grows outward. */
function edgeOf(figure: Figure, paper: Paper, mould: boolean): Edge {
  const perPx = 1 / paper.scale
  const middle = (left: number, right: number): number => left + (right - left) * 0.68
  switch (figure.kind) {
    case 'box': {
      const { left, right, top } = figure.box
      return { axis: 'y', mmPerPx: -perPx, at: onPaper(paper, middle(left, right), top) }
    }
    case 'cup': {
      const { outer, inner } = figure
      if (inner.bottom > outer.bottom) {
        const at = onPaper(paper, middle(outer.left, outer.right), mould ? outer.bottom : inner.bottom)
        return { axis: 'y', mmPerPx: mould ? perPx : -perPx, at }
      }
      return { axis: 'x', mmPerPx: perPx, at: onPaper(paper, outer.right, (inner.bottom + inner.top) / 2) }
    }
    case 'ring': {
      const at = onPaper(paper, figure.x, figure.y - (mould ? figure.outer : figure.inner))
      return { axis: 'y', mmPerPx: mould ? perPx : -perPx, at }
    }
    case 'shell': {
      const { arc, outer, inner } = figure
      const at = onPaper(paper, arc.x, arc.y - arc.up * (mould || arc.up === -1 ? outer : inner))
      return { axis: 'y', mmPerPx: mould && arc.up === 1 ? perPx : -perPx, at }
    }
    case 'band': {
      const { arc, low, high } = figure
      const top = arc.up === 1 ? arc.y + high : arc.y - low
      return { axis: 'y', mmPerPx: -perPx, at: onPaper(paper, arc.x, top) }
    }
    case 'joined':
      return edgeOf(figure.parts[figure.parts.length - 1] ?? figure.parts[0], paper, mould)
  }
}
