import { useEffect, useState } from 'react'

import { Cancelled, ComputeError, PlanError } from '../../core/errors.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { decide } from '../deciding-client.ts'
import type { DayReply } from '../deciding-protocol.ts'

export interface DayState {
  /** What the readings made of the plan; the last good one while the next is computed. */
  readonly day: DayReply | null
  /** Share done of what is being computed; null while nothing is. */
  readonly running: number | null
  /** Why it can't be computed. */
  readonly problem: string | null
}

/** Words come in no more often than this, ms. */
const REPORT_MS = 200

/** How a plan stands on its day; computed anew with each reading, what is overtaken is stopped. */
export function useDay(plan: Plan): DayState {
  const [state, setState] = useState<DayState>({ day: null, running: null, problem: null })
  const measured = (plan.readings ?? []).length > 0
  useEffect(() => {
    if (!measured) {
      setState({ day: null, running: null, problem: null })
      return
    }
    const stop = new AbortController()
    let reported = 0
    setState(({ day }) => ({ day, running: 0, problem: null }))
    const report = (share: number): void => {
      const now = performance.now()
      if (now - reported < REPORT_MS) return
      reported = now
      setState(({ day }) => ({ day, running: share, problem: null }))
    }
    decide('day', { plan }, { report, signal: stop.signal }).then(
      (day) => setState({ day, running: null, problem: null }),
      (error: unknown) => {
        if (error instanceof Cancelled) return
        setState(({ day }) => ({ day, running: null, problem: problemOf(error) }))
      },
    )
    return () => stop.abort()
  }, [plan, measured])
  return state
}

function problemOf(error: unknown): string {
  if (error instanceof PlanError) return error.faults.map(({ problem, remedy }) => `${problem}: ${remedy}`).join('; ')
  if (error instanceof ComputeError) return error.message
  return 'What the readings mean could not be computed.'
}
