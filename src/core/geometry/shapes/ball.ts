import { fromMm } from '../../units.ts'
import { z } from '../../zod.ts'
import type { Body } from '../body.ts'
import { sphere } from '../coordinates/sphere.ts'
import { defineShape, length_mm, rounded_mm } from './definition.ts'

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
  }
}

export const ball = defineShape({
  kind: 'ball',
  title: 'Ball',
  fields: z.strictObject({ kind: z.literal('ball'), diameter_mm: length_mm }).meta({ title: 'Ball' }),
  sizes: [{ key: 'diameter_mm', label: 'Diameter', quantity: 'length', drawn: 'across' }],
  body: (shape) => ballBody({ diameter: fromMm(shape.diameter_mm) }),
  like: ({ across }) => ({ kind: 'ball' as const, diameter_mm: rounded_mm(across) }),
})
