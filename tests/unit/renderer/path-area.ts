/** A closed outline as its corners, arcs in short chords. */
export type Outline = readonly (readonly [x: number, y: number])[]

const CHORDS = 200

/** Points on a circle's shorter arc between two points; SVG 2, appendix B.2.4, for circles of less than half a turn. */
function arcPoints(
  [x0, y0]: readonly [number, number],
  [x1, y1]: readonly [number, number],
  radius: number,
  sweep: boolean,
): [number, number][] {
  const [mx, my, dx, dy] = [(x0 + x1) / 2, (y0 + y1) / 2, x1 - x0, y1 - y0]
  const chord = Math.hypot(dx, dy)
  if (chord === 0 || radius === 0) return [[x1, y1]]
  const off = Math.sqrt(Math.max(0, radius * radius - (chord * chord) / 4)) * (sweep ? 1 : -1)
  const [cx, cy] = [mx - (off * dy) / chord, my + (off * dx) / chord]
  const from = Math.atan2(y0 - cy, x0 - cx)
  let turn = Math.atan2(y1 - cy, x1 - cx) - from
  if (sweep && turn < 0) turn += 2 * Math.PI
  if (!sweep && turn > 0) turn -= 2 * Math.PI
  const r = Math.hypot(x0 - cx, y0 - cy)
  return Array.from({ length: CHORDS }, (_, i) => {
    const angle = from + (turn * (i + 1)) / CHORDS
    return [cx + r * Math.cos(angle), cy + r * Math.sin(angle)]
  })
}

/** The outlines of an SVG path of absolute M, L, H, V, A and Z. */
export function outlinesOf(path: string): Outline[] {
  const outlines: [number, number][][] = []
  let now: [number, number] = [0, 0]
  for (const [, letter, rest] of path.matchAll(/([A-Za-z])([^A-Za-z]*)/g)) {
    const values = (rest ?? '')
      .trim()
      .split(/[\s,]+/)
      .filter(Boolean)
      .map(Number)
    const [a = 0, b = 0, , , sweep = 0, x = 0, y = 0] = values
    if (letter === 'M') outlines.push([])
    const points: [number, number][] = []
    if (letter === 'M' || letter === 'L') points.push([a, b])
    else if (letter === 'H') points.push([a, now[1]])
    else if (letter === 'V') points.push([now[0], a])
    else if (letter === 'A') points.push(...arcPoints(now, [x, y], a, sweep === 1))
    else if (letter !== 'Z') throw new Error(`${letter} in ${path}`)
    outlines.at(-1)?.push(...points)
    now = points.at(-1) ?? now
  }
  return outlines
}

/** Twice the area, positive anticlockwise; and the centre of gravity (Gauss's shoelace formula). */
function sums(points: Outline): { readonly area: number; readonly centre: readonly [number, number] } {
  let [twice, x, y] = [0, 0, 0]
  for (const [i, [x0, y0]] of points.entries()) {
    const [x1, y1] = points[(i + 1) % points.length] ?? [x0, y0]
    const cross = x0 * y1 - x1 * y0
    twice += cross
    x += (x0 + x1) * cross
    y += (y0 + y1) * cross
  }
  return { area: Math.abs(twice) / 2, centre: [x / (3 * twice), y / (3 * twice)] }
}

/** Whether a point is in an odd number of outlines. */
export function isWithin(outlines: readonly Outline[], [x, y]: readonly [number, number]): boolean {
  let inside = false
  for (const points of outlines)
    for (const [i, [x0, y0]] of points.entries()) {
      const [x1, y1] = points[(i + 1) % points.length] ?? [x0, y0]
      if (y0 > y !== y1 > y && x < x0 + ((y - y0) / (y1 - y0)) * (x1 - x0)) inside = !inside
    }
  return inside
}

/** Area within outlines by the even-odd rule; none crosses another. */
export function areaWithin(outlines: readonly Outline[]): number {
  const all = outlines.map((points) => ({ points, ...sums(points) }))
  return all.reduce((total, { area, centre }) => {
    const around = all.filter((other) => other.area > area && isWithin([other.points], centre))
    return total + (around.length % 2 === 0 ? area : -area)
  }, 0)
}
