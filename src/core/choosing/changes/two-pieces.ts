import type { Change } from '../change.ts'
import { thickestFill, withFill } from './parts.ts'

/** Two pieces with the thickest layer half as thick, put together later. */
export const twoPieces: Change = {
  id: 'two-pieces',
  title: 'two pieces, the thickest layer half as thick in each, in two places',
  trouble: 'a second mould and a second place; a seam where they are put together',
  edit: (plan) => {
    const thick = thickestFill(plan)
    return thick && withFill(plan, thick.index, { ...thick.layer, thickness_mm: thick.thickness_mm / 2 })
  },
}
