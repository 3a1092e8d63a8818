import type { Box, Coordinates } from './coordinates.ts'

const RADIUS = 0
const LENGTH = 1
const TURN = 2

const WHOLE = 2 * Math.PI

/** Angle of the box's turn, rad; the whole one where it isn't an axis. */
const angle = ({ low, high }: Box): number => (low.length > TURN ? high[TURN]! - low[TURN]! : WHOLE)

const sized = {
  volume: (box: Box) =>
    (angle(box) / 2) * (box.high[RADIUS]! ** 2 - box.low[RADIUS]! ** 2) * (box.high[LENGTH]! - box.low[LENGTH]!),
  area(axis: number, at: number, box: Box) {
    const { low, high } = box
    if (axis === RADIUS) return angle(box) * at * (high[LENGTH]! - low[LENGTH]!)
    if (axis === LENGTH) return (angle(box) / 2) * (high[RADIUS]! ** 2 - low[RADIUS]! ** 2)
    return (high[RADIUS]! - low[RADIUS]!) * (high[LENGTH]! - low[LENGTH]!)
  },
  distance: (axis: number, from: number, to: number, { low, high }: Box) =>
    axis === TURN ? ((low[RADIUS]! + high[RADIUS]!) / 2) * (to - from) : to - from,
}

/** Axis 0 the radius from an upright axis of revolution, axis 1 the height, axis 2 (if any) the turn from −π to π. */
export const upright: Coordinates = {
  name: 'upright-cylinder',
  drawn: 'twice',
  ...sized,
  toSpace: ([r = 0, y = 0, turn = 0]) => [r * Math.cos(turn), y, r * Math.sin(turn)],
  fromSpace: ([x, y, z]) => [Math.hypot(x, z), y, Math.atan2(z, x)],
  bounds({ low, high }) {
    const r = high[RADIUS]!
    return { low: [-r, low[LENGTH]!, -r], high: [r, high[LENGTH]!, r] }
  },
  fan: { axis: TURN, to: Math.PI },
}

/** Axis 0 the radius from a lying axis of revolution, axis 1 along it; alike all around. */
export const lying: Coordinates = {
  name: 'lying-cylinder',
  drawn: 'around',
  ...sized,
  toSpace: ([r = 0, z = 0]) => [r, 0, z],
  fromSpace: ([x, y, z]) => [Math.hypot(x, y), z],
  bounds({ low, high }) {
    const r = high[RADIUS]!
    return { low: [-r, -r, low[LENGTH]!], high: [r, r, high[LENGTH]!] }
  },
}
