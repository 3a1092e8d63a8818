import { z } from '../../zod.ts'
import type { Body } from '../body.ts'
import { cartesian } from '../coordinates/cartesian.ts'
import { defineShape } from './definition.ts'

/** Area that stands for a sheet whose own isn't given, m². */
export const SHEET_AREA = 1

/**
 * A sheet so wide that heat crosses it only upright; square, should it be cut.
 * @param area  m²
 */
export function sheetBody({ area = SHEET_AREA }: { readonly area?: number | undefined }): Body {
  const side = Math.sqrt(area)
  const open = { length: side, low: null, high: null, linedLow: false, linedHigh: false, idle: true } as const
  return {
    kind: 'sheet',
    coordinates: cartesian,
    axes: [
      { carries: 'x', ...open, cuts: 'across' },
      { carries: 'y', length: 0, low: 'bottom', high: 'top', linedLow: true, linedHigh: false },
      { carries: 'z', ...open, cuts: 'along' },
    ],
    stackAxis: 1,
    measure: 1,
    faces: { bottom: ['bottom'], top: ['top'] },
  }
}

export const sheet = defineShape({
  kind: 'sheet',
  title: 'Sheet',
  fields: z
    .strictObject({
      kind: z.literal('sheet'),
      area_m2: z.number().gt(0).max(100).meta({ description: 'Area, m²; 1 if left out.' }).exactOptional(),
    })
    .meta({ title: 'Sheet', description: 'So wide that heat crosses it only upright.' }),
  sizes: [{ key: 'area_m2', label: 'Area', quantity: 'area', fallback: SHEET_AREA }],
  body: ({ area_m2 }) => sheetBody({ area: area_m2 }),
  like: ({ across, along }) => ({
    kind: 'sheet' as const,
    area_m2: Math.max(0.01, Number((across * along).toFixed(2))),
  }),
})
