import { fromMm } from '../../units.ts'
import { z } from '../../zod.ts'
import type { Body } from '../body.ts'
import { cartesian } from '../coordinates/cartesian.ts'
import { defineShape, length_mm, rounded_mm } from './definition.ts'
import { keepAxes } from './keep-axes.ts'
import { lengthAxis } from './length-axis.ts'

interface BarSize {
  /** m, across */
  readonly width: number
  /** m, along */
  readonly length: number
}

/** A bar of rectangular section with its ends. */
export function wholeBar({ width, length }: BarSize): Body {
  return {
    kind: 'bar',
    coordinates: cartesian,
    axes: [
      { carries: 'x', length: width, low: 'left', high: 'right', linedLow: true, linedHigh: true, cuts: 'across' },
      { carries: 'y', length: 0, low: 'bottom', high: 'top', linedLow: true, linedHigh: false },
      lengthAxis(length),
    ],
    stackAxis: 1,
    measure: 1,
    faces: {
      bottom: ['bottom'],
      top: ['top'],
      left: ['left'],
      right: ['right'],
      sides: ['left', 'right'],
      ends: ['front', 'back'],
    },
  }
}

/** A bar of rectangular section, long enough that heat through its ends may be left out. */
export const barBody = (size: BarSize): Body => keepAxes(wholeBar(size), (axis) => axis !== 2)

export const bar = defineShape({
  kind: 'bar',
  title: 'Bar',
  fields: z.strictObject({ kind: z.literal('bar'), width_mm: length_mm, length_mm }).meta({
    title: 'Bar',
    description: 'Rectangular section, long; heat through the ends is left out where it may be.',
  }),
  sizes: [
    { key: 'width_mm', label: 'Width', quantity: 'length', drawn: 'across' },
    { key: 'length_mm', label: 'Length', quantity: 'length' },
  ],
  body: (shape) => wholeBar({ width: fromMm(shape.width_mm), length: fromMm(shape.length_mm) }),
  like: ({ across, along }) => ({ kind: 'bar' as const, width_mm: rounded_mm(across), length_mm: rounded_mm(along) }),
})
