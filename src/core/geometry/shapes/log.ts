import { fromMm } from '../../units.ts'
import { z } from '../../zod.ts'
import type { Body } from '../body.ts'
import { lying } from '../coordinates/cylinder.ts'
import { defineShape, length_mm, rounded_mm } from './definition.ts'
import { keepAxes } from './keep-axes.ts'
import { lengthAxis } from './length-axis.ts'

interface LogSize {
  /** m */
  readonly diameter: number
  /** m */
  readonly length: number
}

/** A lying round bar with its ends, alike in every direction from its axis: one fill inside the linings. */
export function wholeLog({ diameter, length }: LogSize): Body {
  return {
    kind: 'log',
    coordinates: lying,
    axes: [
      { carries: 'x', length: diameter / 2, low: null, high: 'curved', linedLow: false, linedHigh: true },
      lengthAxis(length),
    ],
    stackAxis: null,
    measure: 1,
    faces: { curved: ['curved'], ends: ['front', 'back'] },
  }
}

/** A log long enough that heat through its ends may be left out. */
export const logBody = (size: LogSize): Body => keepAxes(wholeLog(size), (axis) => axis !== 1)

export const log = defineShape({
  kind: 'log',
  title: 'Log',
  fields: z
    .strictObject({ kind: z.literal('log'), diameter_mm: length_mm, length_mm })
    .meta({ title: 'Log', description: 'A lying round bar; heat through the ends is left out where it may be.' }),
  sizes: [
    { key: 'diameter_mm', label: 'Diameter', quantity: 'length', drawn: 'across' },
    { key: 'length_mm', label: 'Length', quantity: 'length' },
  ],
  body: (shape) => wholeLog({ diameter: fromMm(shape.diameter_mm), length: fromMm(shape.length_mm) }),
  like: ({ across, along }) => ({
    kind: 'log' as const,
    diameter_mm: rounded_mm(across),
    length_mm: rounded_mm(along),
  }),
})
