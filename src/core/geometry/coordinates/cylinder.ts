import type { Coordinates } from './coordinates.ts'

const RADIUS = 0
const HEIGHT = 1

/** Axis 0 the radius from the axis of revolution, axis 1 the height; the whole turn counts. */
export const cylinder: Coordinates = {
  name: 'cylinder',
  volume: ({ low, high }) => Math.PI * (high[RADIUS]! ** 2 - low[RADIUS]! ** 2) * (high[HEIGHT]! - low[HEIGHT]!),
  area: (axis, at, { low, high }) =>
    axis === RADIUS
      ? 2 * Math.PI * at * (high[HEIGHT]! - low[HEIGHT]!)
      : Math.PI * (high[RADIUS]! ** 2 - low[RADIUS]! ** 2),
  distance: (_axis, from, to) => to - from,
  locate: ([x, y, z], size) => [Math.hypot(x, z), y + size[HEIGHT]! / 2],
  offset: (at, size) => [at[RADIUS]!, at[HEIGHT]! - size[HEIGHT]! / 2, 0],
}
