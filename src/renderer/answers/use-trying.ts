import { useEffect, useRef, useState } from 'react'

import type { Help } from '../../core/choosing/help.ts'
import type { Question } from '../../core/choosing/question.ts'
import { Cancelled, ComputeError, PlanError } from '../../core/errors.ts'
import type { Plan } from '../../core/plan/schema.ts'
import { decide } from '../deciding-client.ts'

/** Changes that were tried on a plan, or are being tried. */
export interface Trying {
  readonly help: Help | null
  /** The plan on which they were tried. */
  readonly of: Plan | null
  readonly running: { readonly share: number; readonly doing: string } | null
  readonly problem: string | null
  readonly start: (plan: Plan, question: Question) => void
  readonly stop: () => void
}

/** Words come in no more often than this, ms. */
const REPORT_MS = 150
const nothing = { help: null, of: null, running: null, problem: null }

/**
 * Tries changes when asked, one search at a time.
 * @param call  from the start of the plan, or from its last reading on
 */
export function useTrying(call: 'help' | 'helpNow'): Trying {
  const [state, setState] = useState<Omit<Trying, 'start' | 'stop'>>(nothing)
  const abort = useRef<AbortController | null>(null)
  useEffect(() => () => abort.current?.abort(), [])

  function start(plan: Plan, question: Question): void {
    abort.current?.abort()
    const own = new AbortController()
    abort.current = own
    let reported = 0
    setState({ ...nothing, running: { share: 0, doing: '' } })
    const report = (share: number, doing: string): void => {
      const now = performance.now()
      if (now - reported < REPORT_MS) return
      reported = now
      setState({ ...nothing, running: { share, doing } })
    }
    decide(call, { plan, question }, { report, signal: own.signal }).then(
      (help) => setState({ ...nothing, help, of: plan }),
      (error: unknown) => {
        if (error instanceof Cancelled) return
        setState({ ...nothing, problem: problemOf(error) })
      },
    )
  }

  const stop = (): void => {
    abort.current?.abort()
    setState(nothing)
  }
  return { ...state, start, stop }
}

function problemOf(error: unknown): string {
  if (error instanceof PlanError) return error.faults.map(({ problem, remedy }) => `${problem}: ${remedy}`).join('; ')
  return error instanceof ComputeError ? error.message : 'Changes could not be tried.'
}
