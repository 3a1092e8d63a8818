import type { Body } from '../body.ts'
import { cartesian } from '../coordinates/cartesian.ts'

/** Area that stands for a sheet whose own isn't given, m². */
export const SHEET_AREA = 1

/**
 * A sheet so wide that heat crosses it only upright: one axis, bottom to top.
 * @param area  m²
 */
export function sheetBody({ area = SHEET_AREA }: { readonly area?: number | undefined }): Body {
  return {
    kind: 'sheet',
    coordinates: cartesian,
    axes: [{ carries: 'y', length: 0, low: 'bottom', high: 'top', linedLow: true, linedHigh: false }],
    stackAxis: 0,
    measure: area,
    faces: { bottom: ['bottom'], top: ['top'] },
    notes: () => [],
  }
}
