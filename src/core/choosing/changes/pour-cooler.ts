import { message } from '../../messages.ts'
import type { Change } from '../change.ts'
import { mainFill, withFill } from './parts.ts'

const COOLER_K = 20
/** Below this, stirring cool before pouring gains little, and gels begin to set. */
const LEAST_C = 40

/** The main layer stirred cooler before it is poured. */
export const pourCooler: Change = {
  id: 'pour-cooler',
  title: message('change-pour-cooler'),
  trouble: message('trouble-pour-cooler'),
  edit: (plan) => {
    const index = mainFill(plan)
    const layer = plan.piece.fill[index]
    if (layer === undefined || layer.start_C <= LEAST_C) return undefined
    return withFill(plan, index, { ...layer, start_C: Math.max(LEAST_C, layer.start_C - COOLER_K) })
  },
}
