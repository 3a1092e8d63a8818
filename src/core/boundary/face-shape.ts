import type { Body, FaceName } from '../geometry/body.ts'
import type { FilmShape } from './film-laws.ts'
import type { Side } from './surroundings.ts'

/** Smallest size that a film is told for, m: less is a matter of corners. */
const LEAST = 0.01
/** A body that tells no size, m. */
const ROUGH = 0.2

/** How wide and how long a piece is on plan, m, and whether its plan is round. */
function planOf(body: Body): { readonly across: number; readonly along: number; readonly round: boolean } {
  const x = body.axes.find((axis) => axis.carries === 'x')
  const z = body.axes.find((axis) => axis.carries === 'z')
  if (x === undefined) return { across: ROUGH, along: ROUGH, round: false }
  const isRadius = x.high !== null && x.low === null && x.idle !== true
  const across = body.kind === 'ring' || isRadius ? 2 * ((x.from ?? 0) + x.length) : x.length
  // A turn about an axis has no length of its own.
  const turns = z === undefined || body.coordinates.name === 'upright-cylinder'
  return { across, along: turns ? across : z.length, round: turns && (isRadius || body.kind === 'ring') }
}

/**
 * A face as the air sees it.
 * @param body  as it lies
 * @param side  where the face is: up, down or upright
 * @param height  of the piece, m
 */
export function faceShape(body: Body, face: FaceName, side: Side, height: number): FilmShape {
  const { across, along, round } = planOf(body)
  if (face === 'curved') {
    const diameter = Math.max(across, LEAST)
    return ['sphere', 'dome'].includes(body.coordinates.name)
      ? { kind: 'ball', diameter }
      : { kind: 'cylinder', diameter }
  }
  const short = Math.max(Math.min(across, along), LEAST)
  if (side !== 'sides') {
    const areaOverPerimeter = round ? across / 4 : (across * along) / (2 * (across + along))
    const kind = side === 'top' ? 'up' : 'down'
    return { kind, areaOverPerimeter: Math.max(areaOverPerimeter, LEAST / 4), along: short }
  }
  const length = face === 'front' || face === 'back' ? across : along
  return { kind: 'upright', height: Math.max(height, LEAST), along: Math.max(length, LEAST) }
}
