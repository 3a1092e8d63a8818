import { type Box, type Coordinates, carrierIndex } from './coordinates.ts'

const width = (box: Box, axis: number): number => box.high[axis]! - box.low[axis]!

/** Straight axes at right angles; one metre along every axis that isn't modelled. */
export const cartesian: Coordinates = {
  name: 'cartesian',
  volume: (box) => box.low.reduce((product, _, axis) => product * width(box, axis), 1),
  area: (axis, _at, box) =>
    box.low.reduce((product, _, other) => (other === axis ? product : product * width(box, other)), 1),
  distance: (_axis, from, to) => to - from,
  locate: (offset, size, carries) => carries.map((carrier, axis) => offset[carrierIndex[carrier]] + size[axis]! / 2),
  offset: (at, size, carries) => {
    const offset: [number, number, number] = [0, 0, 0]
    carries.forEach((carrier, axis) => {
      offset[carrierIndex[carrier]] = at[axis]! - size[axis]! / 2
    })
    return offset
  },
}
