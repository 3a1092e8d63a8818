import { create } from 'zustand'

import type { Spread } from '../../core/deciding/spread.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'

/** The last spread that was sampled, and the plan that it is of: its bands stand wherever that plan is shown. */
export const useSampled = create<{ readonly spread: Spread | null; readonly of: Plan | null }>()(() => ({
  spread: null,
  of: null,
}))

export const keepSampled = (spread: Spread, of: Plan): void => useSampled.setState({ spread, of })
