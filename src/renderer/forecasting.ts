import type { Plan } from '../core/plan/schema/plan.ts'
import { type ForecastClient, type ForecastWorker, forecastClient } from './forecast-client.ts'
import { faultsOf } from './plan-faults.ts'
import { usePlan } from './plan-store.ts'

/** The first of several changes is forecast at once, those that follow it nearer than this together, ms. */
const GATHER_MS = 60

/** A quick forecast is drawn before the run at the asked fidelity begins; a drag begins none, ms. */
const SETTLE_MS = 150

let client: ForecastClient | null = null
let timer: ReturnType<typeof setTimeout> | undefined

/** Forecasts the plan being edited, from now on whenever it changes. */
export function startForecasting(): void {
  const wanted = globalThis.crossOriginIsolated ? new SharedArrayBuffer(4) : null
  client = forecastClient(
    () => new Worker(new URL('./forecast.worker.ts', import.meta.url), { type: 'module' }) as ForecastWorker,
    wanted,
    SETTLE_MS,
  )
  let asked: Plan | null = null
  let shown = usePlan.getState().opening
  let changedAt = Number.NEGATIVE_INFINITY
  usePlan.subscribe(({ history, opening }) => {
    if (opening !== shown) client?.forget()
    shown = opening
    const plan = history?.present ?? null
    if (plan === asked) return
    asked = plan
    clearTimeout(timer)
    if (plan === null) return
    const now = performance.now()
    const wait = changedAt + GATHER_MS - now
    changedAt = now
    // also the first waits for the drawing of what was typed, which comes before its forecast
    timer = setTimeout(() => ask(plan), Math.max(0, wait))
  })
}

/** A plan with faults is not asked for: its fields say what is wrong, and the last good forecast stays. */
function ask(plan: Plan): void {
  if (faultsOf(plan).length === 0) client?.ask(plan)
  else client?.cancel()
}

/** Gets the worker ready while no plan is open. */
export const warmForecasting = (plans: readonly Plan[]): void => {
  if (usePlan.getState().history === null) client?.warm(plans)
}

export const cancelForecast = (): void => client?.cancel()

/** Computes the present plan after a stop. */
export function forecastNow(): void {
  const plan = usePlan.getState().history?.present
  if (plan !== undefined) ask(plan)
}
