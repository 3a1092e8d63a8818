import { sizesOf } from '../../core/geometry/shapes/index.ts'
import type { Plan, PlanShape } from '../../core/plan/schema/plan.ts'
import { readWithin } from '../edits/path.ts'
import type { CutPiece } from './cut-piece.ts'
import { onPaper, type Paper, type Point } from './outline.ts'

/** A size drawn as a line with two heads; its number is the field where the plan has one. */
export interface Dimension {
  readonly name: string
  readonly label: string
  readonly from: Point
  readonly to: Point
  /** Middle of the number. */
  readonly text: Point
  /** mm */
  readonly value: number
  /** Path of the field in the plan; null for a sum, which can't be typed. */
  readonly path: string | null
  /** Where the extension lines begin, at the body. */
  readonly reach: readonly [Point, Point] | null
}

const TEXT_HEIGHT = 20

/** Width above, thicknesses in a chain at the right, their sum beyond them. */
export function placeDimensions(
  plan: Plan,
  cut: CutPiece,
  paper: Paper,
  chosen: string | null,
  right: number,
): Dimension[] {
  const found = spansOf(plan.piece.shape, cut).map((span) => spanDimension(plan.piece.shape, span, cut, paper))
  if (!cut.stacked) return found
  const chain = thicknesses(cut, paper, right)
  found.push(...chain.filter((_, i) => keeps(chain, i, chosen)))
  if (isSummed(cut)) found.push(sum(cut, paper, right + (chain.length === 0 ? 24 : 62)))
  return found
}

/** Whether the height is more than the one thickness that stands beside it. */
export function isSummed(cut: CutPiece): boolean {
  const tiers = cut.areas.filter(({ figure }) => figure.edges !== null)
  return (
    cut.stacked &&
    (tiers.length !== 1 || tiers[0]?.thickness === null || cut.areas.some(({ row }) => row.list === 'lining'))
  )
}

/** A size across, from left to right in mm of the piece. */
interface Span {
  readonly key: string
  readonly from: number
  readonly to: number
  /** Height from which its extension lines go up; null: it stands within the piece, at the height given by `at`. */
  readonly reach: number | null
  readonly at?: number
}

function spansOf(shape: PlanShape, cut: CutPiece): Span[] {
  const { left, right, bottom, top } = cut.shape
  const middle = (left + right) / 2
  const flat = cut.flatUp ? top : bottom
  return sizesOf(shape).flatMap((size): Span[] => {
    const { key, drawn, fallback = 0 } = size
    const given = readWithin(shape, key)
    const value = typeof given === 'number' ? given : fallback
    if (drawn === undefined) return []
    if (drawn === 'across') return [{ key, from: left, to: right, reach: cut.stacked ? top : (bottom + top) / 2 }]
    if (drawn === 'radius') return [{ key, from: middle, to: middle + value, reach: flat }]
    const half = drawn === 'hole' ? Math.min(value, right - left) / 2 : value / 2
    const at =
      drawn === 'hole' ? (cut.stacked ? between(bottom, top, 0.7) : (bottom + top) / 2) : tierAt(cut, drawn.tier)
    return [{ key, from: middle - half, to: middle + half, reach: null, at }]
  })
}

const between = (from: number, to: number, share: number): number => from + (to - from) * share

const tierAt = ({ tiers = [] }: CutPiece, tier: number): number => between(tiers[tier] ?? 0, tiers[tier + 1] ?? 0, 0.7)

function spanDimension(shape: PlanShape, { key, from, to, reach, at }: Span, cut: CutPiece, paper: Paper): Dimension {
  const y = reach === null ? onPaper(paper, 0, at ?? 0).y : onPaper(paper, 0, cut.bounds.top).y - 22
  const [left, right] = [onPaper(paper, from, 0).x, onPaper(paper, to, 0).x]
  const body = reach === null ? null : onPaper(paper, 0, reach).y
  const size = sizesOf(shape).find((one) => one.key === key)
  const given = readWithin(shape, key) !== undefined
  return {
    name: reach === null ? key : 'across',
    label: size?.label ?? '',
    from: { x: left, y },
    to: { x: right, y },
    text: { x: (left + right) / 2, y },
    value: to - from,
    path: given ? `piece.shape.${key}` : null,
    reach:
      body === null
        ? null
        : [
            { x: left, y: body },
            { x: right, y: body },
          ],
  }
}

function thicknesses(cut: CutPiece, paper: Paper, right: number): Dimension[] {
  const edge = onPaper(paper, cut.bounds.right, 0).x
  const found: Dimension[] = []
  for (const { row, figure, number, thickness } of cut.areas) {
    const { edges } = figure
    if (edges === null || (thickness === null && cut.areas.length === 1)) continue
    const low = onPaper(paper, 0, edges.bottom).y
    const high = onPaper(paper, 0, edges.top).y
    found.push({
      name: row.name,
      label: `Thickness of layer ${number}`,
      from: { x: right, y: high },
      to: { x: right, y: low },
      text: { x: right + 9, y: (low + high) / 2 },
      value: edges.top - edges.bottom,
      path: thickness === null ? null : `${row.path}.thickness_mm`,
      reach: [
        { x: edge, y: high },
        { x: edge, y: low },
      ],
    })
  }
  return found
}

/** The chosen number always stands; another only where it stays clear of that one and of those above it. */
function keeps(chain: readonly Dimension[], i: number, chosen: string | null): boolean {
  const one = chain[i]
  if (one === undefined || one.name === chosen) return one !== undefined
  const clear = (other: Dimension): boolean => Math.abs(other.text.y - one.text.y) >= TEXT_HEIGHT
  const inTheWay = chain.find(({ name }) => name === chosen)
  if (inTheWay !== undefined && !clear(inTheWay)) return false
  return chain.slice(i + 1).every((above, k) => clear(above) || !keeps(chain, i + 1 + k, chosen))
}

function sum(cut: CutPiece, paper: Paper, x: number): Dimension {
  const edge = onPaper(paper, cut.bounds.right, 0).x
  const low = paper.base
  const high = onPaper(paper, 0, cut.height).y
  return {
    name: 'height',
    label: 'Height',
    from: { x, y: high },
    to: { x, y: low },
    text: { x, y: (low + high) / 2 },
    value: cut.height,
    path: null,
    reach: [
      { x: edge, y: high },
      { x: edge, y: low },
    ],
  }
}
