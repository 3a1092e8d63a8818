import { useCallback, useEffect, useRef, useState } from 'react'

import { Cancelled, ComputeError, PlanError } from '../../core/errors.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { decide } from '../deciding-client.ts'
import type { DecidingCall, DecidingCalls } from '../deciding-protocol.ts'

/** How far a computation is that was asked for. */
export interface Deciding<Call extends DecidingCall> {
  /** What came back, and for which plan. */
  readonly reply: DecidingCalls[Call]['reply'] | null
  readonly of: Plan | null
  /** Share done and what is being tried; null while nothing is computed. */
  readonly running: { readonly share: number; readonly doing: string } | null
  readonly problem: string | null
  readonly ask: (asked: DecidingCalls[Call]['ask']) => void
  readonly cancel: () => void
}

/**
 * Asked for by the person, computed away from the page, and stopped at once where it is no longer wanted; what was found
 * by then is shown where it says anything.
 */
export function useDeciding<Call extends DecidingCall>(call: Call): Deciding<Call> {
  const [state, setState] = useState<Pick<Deciding<Call>, 'reply' | 'of' | 'running' | 'problem'>>({
    reply: null,
    of: null,
    running: null,
    problem: null,
  })
  const going = useRef<AbortController | null>(null)
  useEffect(
    () => () => {
      going.current?.abort()
      going.current = null
    },
    [],
  )
  const ask = useCallback(
    (asked: DecidingCalls[Call]['ask']) => {
      going.current?.abort()
      const stop = new AbortController()
      going.current = stop
      setState((was) => ({ ...was, running: { share: 0, doing: '' }, problem: null }))
      const report = (share: number, doing: string): void => {
        if (!stop.signal.aborted) setState((was) => ({ ...was, running: { share, doing } }))
      }
      decide(call, asked, { report, signal: stop.signal }).then(
        (reply) => {
          if (going.current === stop) setState({ reply, of: asked.plan, running: null, problem: null })
        },
        (error: unknown) => {
          if (error instanceof Cancelled || going.current !== stop) return
          setState((was) => ({ ...was, running: null, problem: problemOf(error) }))
        },
      )
    },
    [call],
  )
  const cancel = useCallback(() => {
    going.current?.abort()
    setState((was) => ({ ...was, running: null }))
  }, [])
  return { ...state, ask, cancel }
}

function problemOf(error: unknown): string {
  if (error instanceof PlanError) return error.faults.map(({ problem, remedy }) => `${problem}: ${remedy}`).join('; ')
  return error instanceof ComputeError ? error.message : 'It could not be computed.'
}
