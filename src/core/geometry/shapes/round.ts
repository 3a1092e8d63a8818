import { fromMm } from '../../units.ts'
import { z } from '../../zod.ts'
import type { Body, BodyAxis } from '../body.ts'
import { upright } from '../coordinates/cylinder.ts'
import { defineShape, length_mm, rounded_mm } from './definition.ts'

/** The turn about an upright axis: alike all around until a wedge is cut. */
export const wholeTurn: BodyAxis = {
  carries: 'z',
  from: -Math.PI,
  length: 2 * Math.PI,
  low: null,
  high: null,
  linedLow: false,
  linedHigh: false,
  idle: true,
  cuts: 'wedges',
}

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
      wholeTurn,
    ],
    stackAxis: 1,
    measure: 1,
    faces: { bottom: ['bottom'], top: ['top'], sides: ['sides'] },
  }
}

export const round = defineShape({
  kind: 'round',
  title: 'Round',
  fields: z.strictObject({ kind: z.literal('round'), diameter_mm: length_mm }).meta({ title: 'Upright round' }),
  sizes: [{ key: 'diameter_mm', label: 'Diameter', quantity: 'length', drawn: 'across' }],
  body: (shape) => roundBody({ diameter: fromMm(shape.diameter_mm) }),
  like: ({ across }) => ({ kind: 'round' as const, diameter_mm: rounded_mm(across) }),
})
