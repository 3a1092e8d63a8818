import type { Body } from '../body.ts'
import { upright } from '../coordinates/cylinder.ts'

/**
 * An upright round: a short cylinder, alike in every direction from its axis.
 * @param diameter  m
 */
export function roundBody({ diameter }: { readonly diameter: number }): Body {
  return {
    kind: 'round',
    coordinates: upright,
    axes: [
      { carries: 'x', length: diameter / 2, low: null, high: 'sides', linedLow: false, linedHigh: true },
      { carries: 'y', length: 0, low: 'bottom', high: 'top', linedLow: true, linedHigh: false },
      {
        carries: 'z',
        from: -Math.PI,
        length: 2 * Math.PI,
        low: null,
        high: null,
        linedLow: false,
        linedHigh: false,
        idle: true,
      },
    ],
    stackAxis: 1,
    measure: 1,
    faces: { bottom: ['bottom'], top: ['top'], sides: ['sides'] },
    notes: () => [],
  }
}
