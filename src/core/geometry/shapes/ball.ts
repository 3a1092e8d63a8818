import type { Body } from '../body.ts'
import { sphere } from '../coordinates/sphere.ts'

/**
 * A ball, alike in every direction from its centre: one fill inside the linings.
 * @param diameter  m
 */
export function ballBody({ diameter }: { readonly diameter: number }): Body {
  return {
    kind: 'ball',
    coordinates: sphere,
    axes: [{ carries: 'x', length: diameter / 2, low: null, high: 'curved', linedLow: false, linedHigh: true }],
    stackAxis: null,
    measure: 1,
    faces: { curved: ['curved'] },
    notes: () => [],
  }
}
