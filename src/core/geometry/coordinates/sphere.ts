import type { Coordinates } from './coordinates.ts'

/** One axis, the radius from the centre; the whole ball counts. */
export const sphere: Coordinates = {
  name: 'sphere',
  drawn: 'around',
  volume: ({ low, high }) => (4 / 3) * Math.PI * (high[0]! ** 3 - low[0]! ** 3),
  area: (_axis, at) => 4 * Math.PI * at * at,
  distance: (_axis, from, to) => to - from,
  toSpace: ([r = 0]) => [r, 0, 0],
  fromSpace: ([x, y, z]) => [Math.hypot(x, y, z)],
  bounds({ high }) {
    const r = high[0]!
    return { low: [-r, -r, -r], high: [r, r, r] }
  },
}
