import { create } from 'zustand'

import type { Fault } from '../core/errors.ts'
import type { Forecast, LikelyCourse } from '../core/forecast-types.ts'
import type { Plan } from '../core/plan/schema/plan.ts'
import type { Failure, Fidelity, ForecastAsk, ForecastReply } from './forecast-protocol.ts'

/** The run that is going on. */
export interface Running {
  readonly plan: Plan
  readonly fidelity: Fidelity
  readonly share: number
  readonly doing: string
}

export interface ForecastState {
  /** The last good forecast, whatever came after it. */
  readonly forecast: Forecast | null
  /** The plan of which it was made. */
  readonly made: Plan | null
  /** Before the first forecast: the likely course of a plan whose bands are still to come. */
  readonly likely: { readonly course: LikelyCourse; readonly plan: Plan } | null
  readonly running: Running | null
  /** What is wrong with the plan that was asked last. */
  readonly faults: readonly Fault[]
  /** Why the plan that was asked last could not be computed to its end. */
  readonly failure: Failure | null
  /** The person stopped the last run. */
  readonly cancelled: boolean
}

const nothing: ForecastState = {
  forecast: null,
  made: null,
  likely: null,
  running: null,
  faults: [],
  failure: null,
  cancelled: false,
}

export const useForecast = create<ForecastState>()(() => nothing)

/** As much of a worker as is used here; tests put their own in its place. */
export interface ForecastWorker {
  onmessage: ((event: MessageEvent<ForecastReply>) => void) | null
  onerror: ((event: ErrorEvent) => void) | null
  postMessage(ask: ForecastAsk): void
  terminate(): void
}

export interface ForecastClient {
  /** Gets ready for what may be asked, by plans that are like it; stops as soon as something is asked. */
  warm(plans: readonly Plan[]): void
  /** The plan to be forecast now; what was asked before is dropped. */
  ask(plan: Plan): void
  cancel(): void
  /** Forgets everything: another plan is opened, or none. */
  forget(): void
}

/** A quick run that takes longer than this is stopped for the sake of a newer plan, ms. */
const PATIENCE_MS = 1500
/** Below this the asked fidelity needs no quick forerunner, ms. */
const AT_ONCE_MS = 30

/**
 * Asks one forecast at a time: quick first, then at the plan's own fidelity. A newer plan stops a run of the older one,
 * by the shared flag where there is one, else by ending the worker; only a quick run may finish, so that a drag is
 * followed by forecasts instead of starving them.
 * @param settle_ms  how long a quick forecast has the machine to itself to be drawn
 */
export function forecastClient(
  makeWorker: () => ForecastWorker,
  wanted: SharedArrayBuffer | null,
  settle_ms = 0,
): ForecastClient {
  const flag = wanted === null ? null : new Int32Array(wanted)
  let worker: ForecastWorker | null = null
  let id = 0
  let next: Plan | null = null
  let lastWall_ms = Number.POSITIVE_INFINITY
  let startedAt = 0
  /** Waits between a quick forecast and the run at the asked fidelity. */
  let settling: ReturnType<typeof setTimeout> | undefined

  const set = useForecast.setState
  const running = (): Running | null => useForecast.getState().running
  const fidelityOf = (plan: Plan): Fidelity => plan.fidelity ?? 'standard'

  /** Takes the worker for something new: what it did before is not wanted any more. */
  function take(): ForecastWorker {
    id += 1
    if (flag !== null) Atomics.store(flag, 0, id)
    worker ??= started()
    return worker
  }

  function run(plan: Plan, fidelity: Fidelity): void {
    const taken = take()
    startedAt = performance.now()
    set({ running: { plan, fidelity, share: 0, doing: '' }, cancelled: false })
    const early = useForecast.getState().forecast === null
    const carries = fidelity !== fidelityOf(plan) && !early
    taken.postMessage({ kind: 'forecast', id, plan, fidelity, carries, early, wanted })
  }

  function started(): ForecastWorker {
    const fresh = makeWorker()
    fresh.onmessage = ({ data }) => {
      if (data.id === id) hear(data)
    }
    fresh.onerror = (event) => {
      worker?.terminate()
      worker = null
      const reason = event.message || 'the computing part of the page could not be started'
      ended({ failure: { reason, stage: '', at_h: 0 } })
    }
    return fresh
  }

  function hear(reply: ForecastReply): void {
    const current = running()
    if (current === null) return
    switch (reply.kind) {
      case 'progress':
        set({ running: { ...current, share: reply.share, doing: reply.doing } })
        return
      case 'likely':
        set({ likely: { course: reply.course, plan: current.plan } })
        return
      case 'done':
        finished(current, reply.forecast)
        return
      case 'faults':
        ended({ faults: reply.faults, failure: null })
        return
      case 'failed':
        ended({ faults: [], failure: reply.failure })
        return
      case 'stopped':
        ended({})
        return
    }
  }

  function finished(current: Running, forecast: Forecast): void {
    const last = fidelityOf(current.plan) === current.fidelity
    if (last) lastWall_ms = performance.now() - startedAt
    set({ forecast, made: current.plan, likely: null, faults: [], failure: null })
    if (next !== null || last) {
      ended({})
      return
    }
    const fidelity = fidelityOf(current.plan)
    const goOn = (): void => {
      settling = undefined
      run(current.plan, fidelity)
    }
    set({ running: { plan: current.plan, fidelity, share: 0, doing: '' } })
    if (settle_ms > 0) settling = setTimeout(goOn, settle_ms)
    else goOn()
  }

  function ended(outcome: Partial<ForecastState>): void {
    // a newer plan is waiting: what this one came to no longer matters
    set({ running: null, ...(next === null ? outcome : {}) })
    if (next !== null) begin(next)
  }

  function begin(plan: Plan): void {
    next = null
    const asked = fidelityOf(plan)
    run(plan, asked === 'fine' || lastWall_ms > AT_ONCE_MS ? 'quick' : asked)
  }

  function stop(): void {
    if (running() === null) return
    if (settling !== undefined) {
      clearTimeout(settling)
      settling = undefined
    } else if (flag === null) {
      worker?.terminate()
      worker = null
    } else {
      Atomics.store(flag, 0, 0)
    }
    id += 1
  }

  return {
    warm(plans) {
      // What can't be stopped by the flag keeps whoever comes next waiting: the worker is started, no more.
      if (flag === null) worker ??= started()
      else if (running() === null && !Number.isFinite(lastWall_ms))
        take().postMessage({ kind: 'warm', id, plans, wanted })
    },
    ask(plan) {
      const current = running()
      if (current === null) {
        begin(plan)
        return
      }
      if (current.plan === plan) {
        next = null
        return
      }
      next = plan
      if (current.fidelity === 'quick' && performance.now() - startedAt < PATIENCE_MS) return
      stop()
      begin(plan)
    },
    cancel() {
      if (running() === null) return
      stop()
      next = null
      set({ running: null, cancelled: true })
    },
    forget() {
      stop()
      next = null
      set(nothing)
    },
  }
}
