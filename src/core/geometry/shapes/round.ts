import type { Body } from '../body.ts'
import { cylinder } from '../coordinates/cylinder.ts'

/**
 * An upright round: a short cylinder, alike in every direction from its axis.
 * @param diameter  m
 */
export function roundBody({ diameter }: { readonly diameter: number }): Body {
  return {
    kind: 'round',
    coordinates: cylinder,
    axes: [
      { carries: 'x', length: diameter / 2, low: null, high: 'sides', linedLow: false, linedHigh: true },
      { carries: 'y', length: 0, low: 'bottom', high: 'top', linedLow: true, linedHigh: false },
    ],
    stackAxis: 1,
    measure: 1,
    faces: { bottom: ['bottom'], top: ['top'], sides: ['sides'] },
    notes: () => [],
  }
}
