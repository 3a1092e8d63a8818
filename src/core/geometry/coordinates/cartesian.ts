import type { Box, Coordinates, Point } from './coordinates.ts'

const width = (box: Box, axis: number): number => box.high[axis]! - box.low[axis]!

const point = (at: readonly number[]): Point => [at[0] ?? 0, at[1] ?? 0, at[2] ?? 0]

/** Straight axes at right angles: x across, y upward, z along. */
export const cartesian: Coordinates = {
  name: 'cartesian',
  volume: (box) => box.low.reduce((product, _, axis) => product * width(box, axis), 1),
  area: (axis, _at, box) =>
    box.low.reduce((product, _, other) => (other === axis ? product : product * width(box, other)), 1),
  distance: (_axis, from, to) => to - from,
  toSpace: point,
  fromSpace: (at) => [...at],
  bounds: ({ low, high }) => ({ low: point(low), high: point(high) }),
}
