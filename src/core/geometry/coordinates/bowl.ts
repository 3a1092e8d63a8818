import type { Bounds, Box, Coordinates, Point } from './coordinates.ts'

/*
 * Coordinates of a half-round section, filled to any level. Below the first level a fan of rays runs from the middle of
 * that level to the arc; above it, level rows are as wide as the arc allows. So both the arc and every level are
 * coordinate lines, and every layer has its true shape.
 *
 * Axis 0, `u`: across the section, from the middle (0) to the arc (`radius`) and, square to the arc, into what lies
 * outside it; in metres of radius. Axis 1, `v`: the angle of the ray from straight down (0) to level (π/2), and beyond
 * that the height above the first level in metres. With the first level at the height of the arc's centre, both are
 * the common polar coordinates; otherwise they cross at a slant, which `skew` tells.
 */

const LEVEL = Math.PI / 2

/** Nodes of a rule of quadrature on 0 to 1, each followed by its weight. */
type Rule = Float64Array

/** Gauss and Legendre's rule of ten points. Source: any handbook; from memory, tested. */
const TEN: Rule = Float64Array.from(
  (
    [
      [0.1488743389816312, 0.2955242247147529],
      [0.4333953941292472, 0.2692667193099963],
      [0.6794095682990244, 0.219086362515982],
      [0.8650633666889845, 0.1494513491505806],
      [0.9739065285171717, 0.0666713443086881],
    ] as const
  ).flatMap(([node, weight]) => [(1 - node) / 2, weight / 2, (1 + node) / 2, weight / 2]),
)

/** The rule of three points, exact up to the fifth power. */
const THREE: Rule = Float64Array.of(0.5 - Math.sqrt(0.15), 5 / 18, 0.5, 4 / 9, 0.5 + Math.sqrt(0.15), 5 / 18)

function integrate(from: number, to: number, f: (at: number) => number, rule = TEN): number {
  let sum = 0
  for (let i = 0; i < rule.length; i += 2) sum += rule[i + 1]! * f(from + rule[i]! * (to - from))
  return sum * (to - from)
}

/** Integral of what is a polynomial of the fifth degree at most, but for a corner at `corner`. */
function integratePowers(from: number, to: number, corner: number, f: (at: number) => number): number {
  return from < corner && corner < to
    ? integrate(from, corner, f, THREE) + integrate(corner, to, f, THREE)
    : integrate(from, to, f, THREE)
}

/** A place in the section with the directions of both axes, m and m per coordinate. */
interface Frame {
  readonly x: number
  readonly y: number
  readonly xu: number
  readonly yu: number
  readonly xv: number
  readonly yv: number
}

export interface BowlSize {
  /** Radius of the arc within all linings, m. */
  readonly radius: number
  /** First level, m above the arc's lowest point. */
  readonly depth: number
}

/** A place on the arc, and how it moves with v. */
interface Rim {
  readonly x: number
  readonly y: number
  readonly xv: number
  readonly yv: number
}

/** y is counted from the centre of the arc. */
function frameOf({ radius, depth }: BowlSize) {
  const below = radius - depth
  /** The arc along a ray or beside a row. */
  const rimAt = (v: number): Rim => {
    if (v <= LEVEL) {
      const [sin, cos] = [Math.sin(v), Math.cos(v)]
      const root = Math.sqrt(radius * radius - below * below * sin * sin)
      const rho = root - below * cos
      const drho = below * sin - (below * below * sin * cos) / root
      return {
        x: rho * sin,
        y: -below - rho * cos,
        xv: drho * sin + rho * cos,
        yv: -drho * cos + rho * sin,
      }
    }
    const y = v - LEVEL - below
    if (y >= 0) return { x: radius, y, xv: 0, yv: 1 }
    const x = Math.sqrt(radius * radius - y * y)
    return { x, y, xv: -y / x, yv: 1 }
  }
  const frameAt = (u: number, v: number, rim: Rim): Frame => {
    const share = u / radius
    if (u > radius && !(v > LEVEL && rim.y >= 0)) {
      // Square to the arc: straight away from its centre.
      return {
        x: rim.x * share,
        y: rim.y * share,
        xu: rim.x / radius,
        yu: rim.y / radius,
        xv: rim.xv * share,
        yv: rim.yv * share,
      }
    }
    // From the middle of the level, along the ray or the row.
    const fromY = v <= LEVEL ? -below : rim.y
    return {
      x: rim.x * share,
      y: fromY + (rim.y - fromY) * share,
      xu: rim.x / radius,
      yu: (rim.y - fromY) / radius,
      xv: rim.xv * share,
      yv: v <= LEVEL ? rim.yv * share : 1,
    }
  }
  return { rimAt, frameAt, frame: (u: number, v: number): Frame => frameAt(u, v, rimAt(v)) }
}

const crossed = ({ xu, yu, xv, yv }: Frame): number => Math.abs(xu * yv - yu * xv)

/** Coordinates u and v of a point of the section; the half to the left counts as the one to the right. */
function locateIn({ radius, depth }: BowlSize, across: number, y: number): [number, number] {
  const below = radius - depth
  const x = Math.abs(across)
  const angle = (px: number, py: number): number => Math.atan2(px, -(py + below))
  const outside = Math.hypot(x, y)
  if (y < 0 && outside > radius) {
    const [ax, ay] = [(x * radius) / outside, (y * radius) / outside]
    return [outside, ay >= -below ? LEVEL + ay + below : angle(ax, ay)]
  }
  if (y >= -below) {
    const width = y < 0 ? Math.sqrt(radius * radius - y * y) : radius
    return [y < 0 ? (radius * x) / width : x, LEVEL + y + below]
  }
  const v = angle(x, y)
  const [sin, cos] = [Math.sin(v), Math.cos(v)]
  const rho = Math.sqrt(radius * radius - below * below * sin * sin) - below * cos
  return [(radius * Math.hypot(x, y + below)) / rho, v]
}

/** So little that it changes nothing, and nothing is divided by nothing where rays begin. */
const TINY = 1e-300

function sectionOf(size: BowlSize, weight: (x: number, box: Box) => number) {
  const { rimAt, frameAt, frame } = frameOf(size)
  const { radius, depth } = size
  const across = (frameAt: Frame): number => crossed(frameAt) + TINY
  return {
    frame,
    volume(box: Box): number {
      const [u0 = 0, v0 = 0] = box.low
      const [u1 = 0, v1 = 0] = box.high
      // Along a ray or a row both axes and the width turn evenly: what is summed up is of the third degree at most.
      return integrate(v0, v1, (v) => {
        const rim = rimAt(v)
        return integratePowers(u0, u1, radius, (u) => {
          const at = frameAt(u, v, rim)
          return crossed(at) * weight(at.x, box)
        })
      })
    },
    area(axis: 0 | 1, at: number, box: Box): number {
      const other = 1 - axis
      return integrate(box.low[other]!, box.high[other]!, (along) => {
        // Just within the box, where a kink of the lines runs along the surface.
        const here = axis === 0 ? frame(at, along) : frame(along, at)
        const length = axis === 0 ? Math.hypot(here.xv, here.yv) : Math.hypot(here.xu, here.yu)
        return length * weight(here.x, box)
      })
    },
    distance(axis: 0 | 1, from: number, to: number, box: Box): number {
      const other = 1 - axis
      const middle = (box.low[other]! + box.high[other]!) / 2
      // Square to the surfaces between which it is measured: shorter than the way along the slanting line.
      return integrate(from, to, (along) => {
        const here = axis === 0 ? frame(along, middle) : frame(middle, along)
        return across(here) / (axis === 0 ? Math.hypot(here.xv, here.yv) : Math.hypot(here.xu, here.yu) + TINY)
      })
    },
    skew([u, v]: readonly [number, number], box: Box): number {
      const here = frame(u, v)
      const slant = (here.xu * here.xv + here.yu * here.yv) / across(here)
      // At right angles but for round-off.
      return slant > 1e-12 ? slant * weight(here.x, box) : 0
    },
    fan: { axis: 1, to: LEVEL },
    depth(axis: number, at: number, place: readonly number[]): number {
      const [x, y, z] = [frame(place[0]!, place[1]!).x, frame(place[0]!, place[1]!).y, place[2] ?? 0]
      if (axis === 1) return Math.abs(frame(0, at).y - y)
      if (axis === 2) return Math.abs(at - z)
      return y < 0 ? Math.abs(at - Math.hypot(x, y)) : Math.abs(at - x)
    },
    locate: (x: number, y: number): [number, number] => locateIn(size, x, y),
    /** Widest x, lowest and highest y of the box. */
    extent(box: Box): { readonly x: number; readonly low: number; readonly high: number } {
      const [u = 0, v = 0] = box.high
      const level = v - LEVEL - (radius - depth)
      const x = Math.max(frame(u, v).x, level > 0 ? u : 0)
      return { x, low: frame(u, 0).y, high: Math.max(frame(0, v).y, frame(u, v).y) }
    },
  }
}

/** A half-round section drawn out along z (axis 2); the left half counts with the right one. */
export function trough(size: BowlSize): Coordinates {
  const section = sectionOf(size, (_x, { low, high }) => 2 * ((high[2] ?? 1) - (low[2] ?? 0)))
  return {
    name: 'trough',
    drawn: 'twice',
    volume: section.volume,
    area(axis, at, box) {
      if (axis === 2)
        return section.volume({ low: [box.low[0]!, box.low[1]!, 0], high: [box.high[0]!, box.high[1]!, 1] })
      return section.area(axis === 0 ? 0 : 1, at, box)
    },
    distance: (axis, from, to, box) => (axis === 2 ? to - from : section.distance(axis === 0 ? 0 : 1, from, to, box)),
    skew: section.skew,
    fan: section.fan,
    depth: section.depth,
    toSpace([u = 0, v = 0, z = 0]): Point {
      const { x, y } = section.frame(u, v)
      return [x, y, z]
    },
    fromSpace: ([x, y, z]) => [...section.locate(x, y), z],
    bounds(box): Bounds {
      const { x, low, high } = section.extent(box)
      return { low: [-x, low, box.low[2] ?? 0], high: [x, high, box.high[2] ?? 0] }
    },
  }
}

/** A half-round section turned about its upright middle line. */
export function dome(size: BowlSize): Coordinates {
  const section = sectionOf(size, (x) => 2 * Math.PI * x)
  return {
    name: 'dome',
    drawn: 'twice',
    volume: section.volume,
    area: (axis, at, box) => section.area(axis === 0 ? 0 : 1, at, box),
    distance: (axis, from, to, box) => section.distance(axis === 0 ? 0 : 1, from, to, box),
    skew: section.skew,
    fan: section.fan,
    depth: section.depth,
    toSpace([u = 0, v = 0]): Point {
      const { x, y } = section.frame(u, v)
      return [x, y, 0]
    },
    fromSpace: ([x, y, z]) => section.locate(Math.hypot(x, z), y),
    bounds(box): Bounds {
      const { x, low, high } = section.extent(box)
      return { low: [-x, low, -x], high: [x, high, x] }
    },
  }
}
