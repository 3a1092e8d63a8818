import { message } from '../../messages.ts'
import type { Body } from '../body.ts'
import { cartesian } from '../coordinates/cartesian.ts'

/**
 * A bar of rectangular section, long enough that heat through its ends may be left out.
 * @param width  m, across
 * @param length  m, along
 */
export function barBody({ width, length }: { readonly width: number; readonly length: number }): Body {
  return {
    kind: 'bar',
    coordinates: cartesian,
    axes: [
      { carries: 'x', length: width, low: 'left', high: 'right', linedLow: true, linedHigh: true },
      { carries: 'y', length: 0, low: 'bottom', high: 'top', linedLow: true, linedHigh: false },
      { carries: 'z', length, low: null, high: null, linedLow: false, linedHigh: false, idle: true },
    ],
    stackAxis: 1,
    measure: 1,
    faces: {
      bottom: ['bottom'],
      top: ['top'],
      left: ['left'],
      right: ['right'],
      sides: ['left', 'right'],
      ends: [],
    },
    notes: (height) => [
      message('ends-ignored', {
        ratio: length / Math.min(width, height),
        of: width < height ? 'wide' : 'high',
      }),
    ],
  }
}
