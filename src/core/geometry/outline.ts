import type { Box, Coordinates } from './coordinates/coordinates.ts'

/*
 * The outline of a box of mesh coordinates where the piece is cut across: the same coordinates by which volumes are
 * computed, so that what is drawn is what is computed.
 */

/** A closed outline, m: x across from the middle (or as the coordinates have it), y upward as the coordinates have it. */
export type Loop = readonly (readonly [x: number, y: number])[]

/** Straight parts in which a bent side is drawn. */
const PARTS = 96
/** A side is straight if its quarters lie this near to the line, as a share of its length. */
const STRAIGHT = 1e-9
/** Nearer to the axis than this share of the outline counts as on it. */
const ON_AXIS = 1e-9

type Corner = readonly [number, number]
type Spot = readonly [number, number]

/** Points from one corner towards the next, without the last; a side along which the coordinates change in two. */
function side(coordinates: Coordinates, from: Corner, to: Corner): Spot[] {
  const turn = coordinates.fan?.axis === 1 ? coordinates.fan.to : Number.NaN
  if ((from[1] < turn && to[1] > turn) || (from[1] > turn && to[1] < turn)) {
    const between: Corner = [from[0], turn]
    return [...stretch(coordinates, from, between), ...stretch(coordinates, between, to)]
  }
  return stretch(coordinates, from, to)
}

function stretch({ toSpace }: Coordinates, from: Corner, to: Corner): Spot[] {
  const at = (share: number): Spot => {
    const [x, y] = toSpace([from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])])
    return [x, y]
  }
  const [first, last] = [at(0), at(1)]
  const length = Math.hypot(last[0] - first[0], last[1] - first[1])
  const straight = [0.25, 0.5, 0.75].every((share) => {
    const [x, y] = at(share)
    const away = Math.abs((x - first[0]) * (last[1] - first[1]) - (y - first[1]) * (last[0] - first[0]))
    return away <= STRAIGHT * length * length
  })
  if (straight && length > 0) return [first]
  return Array.from({ length: PARTS }, (_, part) => at(part / PARTS))
}

function circle(radius: number): Loop {
  return Array.from({ length: 4 * PARTS }, (_, part): Spot => {
    const angle = (Math.PI * part) / (2 * PARTS)
    return [radius * Math.cos(angle), radius * Math.sin(angle)]
  })
}

/** One half and its image: one outline where they meet on the axis, else two. */
function bothSides(half: readonly Spot[]): Loop[] {
  const widest = Math.max(...half.map(([x]) => Math.abs(x)))
  const onAxis = ([x]: Spot): boolean => Math.abs(x) <= ON_AXIS * widest
  const mirror = ([x, y]: Spot): Spot => [-x, y]
  const leaves = half.findIndex((spot, i) => onAxis(spot) && !onAxis(half[(i + 1) % half.length]!))
  if (leaves < 0) return [half, half.map(mirror).reverse()]
  const round = [...half.slice(leaves), ...half.slice(0, leaves)]
  const back = round.findIndex((spot, i) => i > 0 && onAxis(spot))
  const right = back < 0 ? [...round, round[0]!] : round.slice(0, back + 1)
  return [[...right, ...right.slice(1, -1).map(mirror).reverse()]]
}

/** Outlines of a box; none where it has no room. */
export function loopsOf(coordinates: Coordinates, { low, high }: Box): Loop[] {
  if (!(low[0]! < high[0]!)) return []
  if (coordinates.drawn === 'around') return low[0]! > 0 ? [circle(high[0]!), circle(low[0]!)] : [circle(high[0]!)]
  if (!(low[1]! < high[1]!)) return []
  const corners: readonly Corner[] = [
    [low[0]!, low[1]!],
    [high[0]!, low[1]!],
    [high[0]!, high[1]!],
    [low[0]!, high[1]!],
  ]
  const outline = corners.flatMap((corner, i) => side(coordinates, corner, corners[(i + 1) % 4]!))
  if (outline.some(([x, y]) => !Number.isFinite(x + y))) return []
  return coordinates.drawn === 'twice' ? bothSides(outline) : [outline]
}
