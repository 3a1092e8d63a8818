import type { Box, Coordinates } from './coordinates.ts'

const width = (box: Box, axis: number): number => box.high[axis]! - box.low[axis]!

/** Straight axes at right angles; one metre along every axis that isn't modelled. */
export const cartesian: Coordinates = {
  name: 'cartesian',
  volume: (box) => box.low.reduce((product, _, axis) => product * width(box, axis), 1),
  area: (axis, _at, box) =>
    box.low.reduce((product, _, other) => (other === axis ? product : product * width(box, other)), 1),
  distance: (_axis, from, to) => to - from,
}
