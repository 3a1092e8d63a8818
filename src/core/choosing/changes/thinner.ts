import { message } from '../../messages.ts'
import type { Plan } from '../../plan/schema/plan.ts'
import type { Change } from '../change.ts'
import { thickestFill, withFill } from './parts.ts'

const TIMES = 0.8

/** Sizes that make a shape thick where its layers don't. */
const ACROSS = ['radius_mm', 'diameter_mm'] as const

function smallerMould(plan: Plan): Plan | undefined {
  const { shape } = plan.piece
  const sizes = shape as Readonly<Record<string, unknown>>
  const key = ACROSS.find((one) => typeof sizes[one] === 'number')
  if (key === undefined) return undefined
  return { ...plan, piece: { ...plan.piece, shape: { ...shape, [key]: TIMES * Number(sizes[key]) } } }
}

/** The thickest layer a fifth thinner; where the mould gives its thickness, the mould a fifth narrower. */
export const thinner: Change = {
  id: 'thinner',
  title: message('change-thinner'),
  trouble: message('trouble-thinner'),
  edit: (plan) => {
    const thick = thickestFill(plan)
    if (thick === undefined) return smallerMould(plan)
    return withFill(plan, thick.index, { ...thick.layer, thickness_mm: TIMES * thick.thickness_mm })
  },
}
