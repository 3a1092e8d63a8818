import { message } from '../../messages.ts'
import type { Change } from '../change.ts'
import { thickestFill, withFill } from './parts.ts'

/** Two pieces with the thickest layer half as thick, put together later. */
export const twoPieces: Change = {
  id: 'two-pieces',
  title: message('change-two-pieces'),
  trouble: message('trouble-two-pieces'),
  edit: (plan) => {
    const thick = thickestFill(plan)
    return thick && withFill(plan, thick.index, { ...thick.layer, thickness_mm: thick.thickness_mm / 2 })
  },
}
