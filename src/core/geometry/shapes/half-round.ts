import type { BodyAxis, FaceName, Fit } from '../body.ts'
import type { BowlSize } from '../coordinates/bowl.ts'
import type { Coordinates } from '../coordinates/coordinates.ts'

const LEVEL = Math.PI / 2

/**
 * What a lowest level of half the radius costs: a bound over what tests/physics/half-round-reference.json shows, growing
 * as the level gets shallow.
 */
const SLANT_ERROR = 0.003

/** Shallowest lowest layer that the model takes, as a share of the radius within the linings. */
export const SHALLOWEST = 0.1

/**
 * Where the layers of a half-round mould lie, bottom first: the lowest in the fan of rays, the others as rows above it.
 * One of them may take what the others leave up to the rim.
 */
export function fitHalfRound(
  outer: number,
  wall: number,
  depths: readonly (number | null)[],
  coordinates: (size: BowlSize) => Coordinates,
): Fit {
  const radius = outer - wall
  const given = depths.reduce<number>((sum, depth) => sum + (depth ?? 0), 0)
  const all = depths.map((depth) => depth ?? Math.max(radius - given, 1e-6))
  const depth = Math.min(all[0]!, radius)
  let at = LEVEL
  const stack = all.map((thickness, index): readonly [number, number] => {
    const from = index === 0 ? 0 : at
    // What the lowest layer has above the arc's centre stands between upright walls.
    if (index === 0) at = LEVEL + Math.max(0, thickness - radius)
    else at += thickness
    return [from, at]
  })
  return { coordinates: coordinates({ radius, depth }), stack, error: (SLANT_ERROR * (radius - depth)) / depth }
}

/** Cells more than on a straight axis: what bends needs them. */
const SECTION_FINER = 1.25

/** Both axes of a half-round section: the rays, and their turn up to the flat face. */
export function halfRoundAxes(radius: number, flat: FaceName): readonly BodyAxis[] {
  const finer = SECTION_FINER
  return [
    { carries: 'x', length: radius, low: null, high: 'curved', linedLow: false, linedHigh: true, apex: true, finer },
    { carries: 'y', length: LEVEL, low: null, high: flat, linedLow: false, linedHigh: false, finer },
  ]
}
