import { fromMm } from '../../units.ts'
import { z } from '../../zod.ts'
import type { Body } from '../body.ts'
import { sphere } from '../coordinates/sphere.ts'
import { defineShape, length_mm, rounded_mm } from './definition.ts'

interface ShellSize {
  /** m, outside */
  readonly diameter: number
  /** m, across the hollow */
  readonly hollow: number
}

/**
 * A closed hollow ball: one fill is its wall, inside the linings. Nothing passes the inner face: what is in the hollow
 * is as warm as the wall around it, and the little air there holds next to no heat.
 */
export function shellBody({ diameter, hollow }: ShellSize): Body {
  return {
    kind: 'shell',
    coordinates: sphere,
    axes: [
      {
        carries: 'x',
        from: hollow / 2,
        length: (diameter - hollow) / 2,
        low: null,
        high: 'curved',
        linedLow: false,
        linedHigh: true,
      },
    ],
    stackAxis: null,
    measure: 1,
    faces: { curved: ['curved'] },
  }
}

export const shell = defineShape({
  kind: 'shell',
  title: 'Hollow ball',
  fields: z
    .strictObject({
      kind: z.literal('shell'),
      diameter_mm: length_mm.meta({ description: 'Diameter outside, mm.' }),
      hollow_mm: length_mm.meta({ description: 'Diameter of the hollow, mm.' }),
    })
    .meta({
      title: 'Hollow ball',
      description: 'A closed shell with nothing inside. One that is filled is a ball with linings.',
    }),
  sizes: [
    { key: 'diameter_mm', label: 'Diameter', quantity: 'length', drawn: 'across' },
    { key: 'hollow_mm', label: 'Hollow', quantity: 'length', drawn: 'hole' },
  ],
  faults: ({ diameter_mm, hollow_mm }) =>
    hollow_mm < diameter_mm
      ? []
      : [{ key: 'hollow_mm', problem: 'is no smaller than the ball', remedy: `give less than ${diameter_mm}` }],
  body: (shape) => shellBody({ diameter: fromMm(shape.diameter_mm), hollow: fromMm(shape.hollow_mm) }),
  like: ({ across }) => ({
    kind: 'shell' as const,
    diameter_mm: rounded_mm(across),
    hollow_mm: rounded_mm(across * 0.6),
  }),
})
