import type { Plan } from '../../core/plan/schema.ts'
import type { CutPiece } from './areas.ts'
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
  const { shape } = plan.piece
  const found: Dimension[] = []
  const across = 'width_mm' in shape ? 'width_mm' : 'diameter_mm' in shape ? 'diameter_mm' : null
  if (across !== null)
    found.push(widthDimension(cut, paper, across, shape.kind === 'ball' ? cut.height / 2 : cut.height))
  if (shape.kind === 'ball') return found

  const chain = thicknesses(cut, paper, right)
  const shown = chain.filter((_, i) => keeps(chain, i, chosen))
  found.push(...shown)
  if (chain.length > 1 || cut.areas.some(({ row }) => row.list === 'lining')) found.push(sum(cut, paper, right + 62))
  return found
}

function widthDimension(cut: CutPiece, paper: Paper, key: string, widest: number): Dimension {
  const y = onPaper(paper, 0, cut.bounds.top).y - 22
  const from = { x: onPaper(paper, 0, 0).x, y }
  const to = { x: onPaper(paper, cut.width, 0).x, y }
  const top = onPaper(paper, 0, widest).y
  return {
    name: 'across',
    label: key === 'width_mm' ? 'Width' : 'Diameter',
    from,
    to,
    text: { x: (from.x + to.x) / 2, y },
    value: cut.width,
    path: `piece.shape.${key}`,
    reach: [
      { x: from.x, y: top },
      { x: to.x, y: top },
    ],
  }
}

function thicknesses(cut: CutPiece, paper: Paper, right: number): Dimension[] {
  const edge = onPaper(paper, cut.bounds.right, 0).x
  const found: Dimension[] = []
  for (const { row, figure, number } of cut.areas) {
    if (figure.kind !== 'box') continue
    const low = onPaper(paper, 0, figure.box.bottom).y
    const high = onPaper(paper, 0, figure.box.top).y
    found.push({
      name: row.name,
      label: `Thickness of layer ${number}`,
      from: { x: right, y: high },
      to: { x: right, y: low },
      text: { x: right + 9, y: (low + high) / 2 },
      value: figure.box.top - figure.box.bottom,
      path: `${row.path}.thickness_mm`,
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
