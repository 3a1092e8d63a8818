import type { Box } from '../../core/geometry/coordinates/coordinates.ts'
import { type Loop, loopsOf } from '../../core/geometry/outline.ts'
import type { DrawnLayer, DrawnPart, DrawnPiece } from '../../core/plan/drawn-piece.ts'
import { toMm } from '../../core/units.ts'

/** Millimetres, x to the right and y upward from the lower left corner of the piece. */
export interface Frame {
  readonly left: number
  readonly bottom: number
  readonly right: number
  readonly top: number
}

export interface Spot {
  readonly x: number
  readonly y: number
}

/** The edge of a layer that moves when it grows, and which way outward is. */
export interface Edge extends Spot {
  readonly axis: 'x' | 'y'
  /** mm that it moves to the right or upward while the layer grows by one. */
  readonly moves: 1 | -1
}

/** The outline of one cut layer. */
export interface Figure {
  /** Closed outlines, those of holes by the even-odd rule; no side thinner than `least` mm. */
  loops(least: number): Loop[]
  /** Lower and upper edge of a layer that lies level; null for what goes round others. */
  readonly edges: { readonly bottom: number; readonly top: number } | null
  /** A point within it, elsewhere for each number. */
  anchor(number: number): Spot
  readonly edge: Edge
}

/** Where mesh coordinates lie in the drawing. */
export interface Placing {
  readonly piece: DrawnPiece
  /** Of a point of the section in m. */
  readonly place: (x: number, y: number) => Spot
}

/** Round-off of a metre told in millimetres goes. */
const exact = (mm: number): number => Math.round(mm * 1e9) / 1e9

export const frameOf = (loops: readonly Loop[]): Frame => {
  const points = loops.flat()
  return {
    left: Math.min(...points.map(([x]) => x)),
    bottom: Math.min(...points.map(([, y]) => y)),
    right: Math.max(...points.map(([x]) => x)),
    top: Math.max(...points.map(([, y]) => y)),
  }
}

/** A piece counted from the lower left corner of what it is without its mould. */
export function placingOf(piece: DrawnPiece): Placing {
  const { left, bottom, top } = frameOf(loopsOf(piece.coordinates, piece.whole))
  return {
    piece,
    place: (x, y) => ({
      x: exact(toMm(x - left)),
      y: exact(toMm(piece.upsideDown ? top - y : y - bottom)),
    }),
  }
}

/** Outlines of a box in the drawing. */
export const placedLoops = ({ piece, place }: Placing, box: Box): Loop[] =>
  loopsOf(piece.coordinates, box).map((loop) =>
    loop.map(([x, y]) => {
      const spot = place(x, y)
      return [spot.x, spot.y]
    }),
  )

const replaced = (values: readonly number[], index: number, value: number): number[] =>
  values.map((old, at) => (at === index ? value : old))

/** The same part with no wall thinner than `least` m: what goes round grows outward, a lining inward, a layer upward. */
function thickened({ body }: DrawnPiece, kind: DrawnLayer['kind'], { box, hole }: DrawnPart, least: number): DrawnPart {
  if (hole === null) {
    const { stackAxis } = body
    // Where rays fan out the axis is an angle, and no layer there is thin.
    const turns = stackAxis !== null && body.fit !== undefined && box.low[stackAxis]! < Math.PI / 2
    if (kind !== 'fill' || stackAxis === null || turns) return { box, hole }
    const top = Math.max(box.high[stackAxis]!, box.low[stackAxis]! + least)
    return { box: { ...box, high: replaced(box.high, stackAxis, top) }, hole }
  }
  const wall = (size: number): number => (size > 0 ? Math.max(size, least) : 0)
  if (kind === 'lining')
    return {
      box,
      hole: {
        low: hole.low.map((at, axis) => box.low[axis]! + wall(at - box.low[axis]!)),
        high: hole.high.map((at, axis) => box.high[axis]! - wall(box.high[axis]! - at)),
      },
    }
  return {
    box: {
      low: box.low.map((at, axis) => hole.low[axis]! - wall(hole.low[axis]! - at)),
      high: box.high.map((at, axis) => hole.high[axis]! + wall(at - hole.high[axis]!)),
    },
    hole,
  }
}

const between = (from: number, to: number, share: number): number => from + (to - from) * share

/** A point of a part, by mesh coordinates; of a section drawn twice on its left half. */
function spotAt({ piece, place }: Placing, at: readonly number[], left = false): Spot {
  const [x, y] = piece.coordinates.toSpace(at)
  return place(left && piece.coordinates.drawn === 'twice' ? -x : x, y)
}

/** How thick a wall is at the low and high end of an axis. */
const walls = ({ box, hole }: DrawnPart, axis: number): readonly [low: number, high: number] =>
  hole === null ? [0, 0] : [hole.low[axis]! - box.low[axis]!, box.high[axis]! - hole.high[axis]!]

/** Fills by their left part, walls in their left wall, rings at their left. */
function anchorOf(placing: Placing, part: DrawnPart, number: number): Spot {
  const { drawn } = placing.piece.coordinates
  const { box, hole } = part
  if (drawn === 'around') {
    const radius = (box.high[0]! + (hole?.high[0] ?? box.low[0]!)) / 2
    const angle = Math.PI * (1 - 0.14 * (number - 1.5))
    return placing.place(radius * Math.cos(angle), radius * Math.sin(angle))
  }
  const middle = (axis: number): number => (box.low[axis]! + box.high[axis]!) / 2
  if (hole === null) {
    const share = drawn === 'twice' ? (box.low[0]! > 0 ? 0.84 : 0.68) : 0.16
    return spotAt(placing, [between(box.low[0]!, box.high[0]!, share), middle(1)], true)
  }
  const along = between(box.low[1]!, box.high[1]!, 0.84 - 0.12 * (number % 3))
  const [low, high] = walls(part, 0)
  if (low > 0 && drawn !== 'twice') return spotAt(placing, [box.low[0]! + low / 2, along])
  if (high > 0) return spotAt(placing, [box.high[0]! - high / 2, along], true)
  const [below, above] = walls(part, 1)
  const across = between(box.low[0]!, box.high[0]!, drawn === 'twice' ? 0.94 : 0.04)
  return spotAt(placing, [across, below > 0 ? box.low[1]! + below / 2 : box.high[1]! - above / 2], true)
}

/** The edge that moves when the layer grows: the piece stays on its base, mould and coat grow outward. */
function edgeOf(placing: Placing, kind: DrawnLayer['kind'], part: DrawnPart, own: Frame): Edge {
  const { box, hole } = part
  const outward = kind === 'mould' || kind === 'coat'
  const { drawn } = placing.piece.coordinates
  const bowl = drawn === 'twice' && placing.piece.body.fit !== undefined
  const right = between(own.left, own.right, 0.68)
  if (hole === null) {
    const x =
      bowl || (drawn === 'twice' && box.low[0]! === 0 && placing.piece.body.stackAxis === null)
        ? (own.left + own.right) / 2
        : right
    return { axis: 'y', moves: 1, x, y: own.top }
  }
  const grows = outward ? box : hole
  if (drawn === 'around') {
    const { x, y } = placing.place(0, -grows.high[0]!)
    return { axis: 'y', moves: outward ? -1 : 1, x, y }
  }
  if (bowl && walls(part, 0)[1] > 0) {
    // At the crown; a crown that is up can only rise, as the piece stays on its base.
    const { upsideDown } = placing.piece
    const { x, y } = spotAt(placing, [(outward || upsideDown ? box : hole).high[0]!, box.low[1]!])
    return { axis: 'y', moves: outward && !upsideDown ? -1 : 1, x, y }
  }
  const [below, above] = walls(part, 1)
  if (below > 0) {
    const { y } = spotAt(placing, [box.low[0]!, grows.low[1]!])
    return { axis: 'y', moves: outward ? -1 : 1, x: right, y }
  }
  if (walls(part, 0)[1] > 0) {
    const { x } = spotAt(placing, [box.high[0]!, box.low[1]!])
    return { axis: 'x', moves: 1, x, y: (own.bottom + own.top) / 2 }
  }
  const { y } = spotAt(placing, [box.low[0]!, above > 0 ? box.high[1]! : box.low[1]!])
  return { axis: 'y', moves: 1, x: right, y }
}

/** How a layer is drawn; null where it has no room. */
export function figureOf(placing: Placing, { kind, parts }: DrawnLayer): Figure | null {
  const outlines = (all: readonly DrawnPart[]): Loop[] =>
    all.flatMap(({ box, hole }) => [...placedLoops(placing, box), ...(hole === null ? [] : placedLoops(placing, hole))])
  const own = outlines(parts)
  const last = parts[parts.length - 1]
  if (own.length === 0 || last === undefined) return null
  const frame = frameOf(own)
  const level = kind === 'fill' && placing.piece.coordinates.drawn !== 'around'
  return {
    loops: (least) => outlines(parts.map((part) => thickened(placing.piece, kind, part, least / 1000))),
    edges: level ? { bottom: frame.bottom, top: frame.top } : null,
    anchor: (number) => anchorOf(placing, parts[0]!, number),
    edge: edgeOf(placing, kind, last, frameOf(outlines([last]))),
  }
}
