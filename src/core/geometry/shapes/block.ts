import { fromMm } from '../../units.ts'
import { z } from '../../zod.ts'
import type { Body } from '../body.ts'
import { cartesian } from '../coordinates/cartesian.ts'
import { defineShape, length_mm, rounded_mm } from './definition.ts'

/**
 * A block that loses heat on all six faces.
 * @param width  m, across
 * @param length  m, from front to back
 */
export function blockBody({ width, length }: { readonly width: number; readonly length: number }): Body {
  return {
    kind: 'block',
    coordinates: cartesian,
    axes: [
      { carries: 'x', length: width, low: 'left', high: 'right', linedLow: true, linedHigh: true, cuts: 'across' },
      { carries: 'y', length: 0, low: 'bottom', high: 'top', linedLow: true, linedHigh: false },
      { carries: 'z', length, low: 'front', high: 'back', linedLow: true, linedHigh: true, cuts: 'along' },
    ],
    stackAxis: 1,
    measure: 1,
    faces: {
      bottom: ['bottom'],
      top: ['top'],
      left: ['left'],
      right: ['right'],
      front: ['front'],
      back: ['back'],
      sides: ['left', 'right', 'front', 'back'],
    },
  }
}

export const block = defineShape({
  kind: 'block',
  title: 'Block',
  fields: z.strictObject({ kind: z.literal('block'), length_mm, width_mm: length_mm }).meta({ title: 'Block' }),
  sizes: [
    { key: 'width_mm', label: 'Width', quantity: 'length', drawn: 'across' },
    { key: 'length_mm', label: 'Length', quantity: 'length' },
  ],
  body: (shape) => blockBody({ width: fromMm(shape.width_mm), length: fromMm(shape.length_mm) }),
  like: ({ across, along }) => ({ kind: 'block' as const, width_mm: rounded_mm(across), length_mm: rounded_mm(along) }),
})
