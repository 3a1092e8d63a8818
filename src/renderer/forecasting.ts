import type { Plan } from '../core/plan/schema.ts'
import { type ForecastClient, type ForecastWorker, forecastClient } from './forecast-client.ts'
import { faultsOf } from './plan-faults.ts'
import { usePlan } from './plan-store.ts'

/** Changes nearer together than this are forecast once, ms. */
const GATHER_MS = 60

let client: ForecastClient | null = null
let timer: ReturnType<typeof setTimeout> | undefined

/** Forecasts the plan being edited, from now on whenever it changes. */
export function startForecasting(): void {
  const wanted = globalThis.crossOriginIsolated ? new SharedArrayBuffer(4) : null
  client = forecastClient(
    () => new Worker(new URL('./forecast.worker.ts', import.meta.url), { type: 'module' }) as ForecastWorker,
    wanted,
  )
  let asked: Plan | null = null
  let shown = usePlan.getState().opening
  usePlan.subscribe(({ history, opening }) => {
    if (opening !== shown) client?.forget()
    shown = opening
    const plan = history?.present ?? null
    if (plan === asked) return
    asked = plan
    clearTimeout(timer)
    if (plan !== null) timer = setTimeout(() => ask(plan), GATHER_MS)
  })
}

/** A plan with faults is not asked for: its fields say what is wrong, and the last good forecast stays. */
function ask(plan: Plan): void {
  if (faultsOf(plan).length === 0) client?.ask(plan)
  else client?.cancel()
}

export const cancelForecast = (): void => client?.cancel()

/** Computes the present plan after a stop. */
export function forecastNow(): void {
  const plan = usePlan.getState().history?.present
  if (plan !== undefined) ask(plan)
}
