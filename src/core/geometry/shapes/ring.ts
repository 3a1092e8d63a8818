import { fromMm } from '../../units.ts'
import { z } from '../../zod.ts'
import type { Body } from '../body.ts'
import { upright } from '../coordinates/cylinder.ts'
import { defineShape, length_mm, rounded_mm } from './definition.ts'
import { wholeTurn } from './round.ts'

/**
 * An upright ring: a round with a round hole through its middle.
 * @param outer  m, diameter
 * @param inner  m, diameter of the hole
 */
export function ringBody({ outer, inner }: { readonly outer: number; readonly inner: number }): Body {
  return {
    kind: 'ring',
    coordinates: upright,
    axes: [
      {
        carries: 'x',
        from: inner / 2,
        length: (outer - inner) / 2,
        low: 'inner',
        high: 'sides',
        linedLow: true,
        linedHigh: true,
        radial: true,
      },
      { carries: 'y', length: 0, low: 'bottom', high: 'top', linedLow: true, linedHigh: false },
      wholeTurn,
    ],
    stackAxis: 1,
    measure: 1,
    faces: { bottom: ['bottom'], top: ['top'], sides: ['sides'], inner: ['inner'] },
  }
}

export const ring = defineShape({
  kind: 'ring',
  title: 'Ring',
  fields: z
    .strictObject({
      kind: z.literal('ring'),
      outer_mm: length_mm.meta({ description: 'Diameter, mm.' }),
      inner_mm: length_mm.meta({ description: 'Diameter of the hole, mm.' }),
    })
    .meta({ title: 'Ring', description: 'An upright round with a round hole through its middle.' }),
  sizes: [
    { key: 'outer_mm', label: 'Outer diameter', quantity: 'length', drawn: 'across' },
    { key: 'inner_mm', label: 'Hole', quantity: 'length', drawn: 'hole' },
  ],
  faults: ({ outer_mm, inner_mm }) =>
    inner_mm < outer_mm
      ? []
      : [{ key: 'inner_mm', problem: 'is no smaller than the ring', remedy: `give less than ${outer_mm}` }],
  body: (shape) => ringBody({ outer: fromMm(shape.outer_mm), inner: fromMm(shape.inner_mm) }),
  like: ({ across }) => ({ kind: 'ring' as const, outer_mm: rounded_mm(across), inner_mm: rounded_mm(across / 3) }),
})
