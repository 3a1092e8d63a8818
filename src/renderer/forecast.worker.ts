import type { Control } from '../core/control.ts'
import { type BandRuns, keepRuns } from '../core/deciding/band-runs.ts'
import { Cancelled, ComputeError, PlanError } from '../core/errors.ts'
import { forecast } from '../core/forecast.ts'
import type { Forecast } from '../core/forecast-types.ts'
import { likelyCourse } from '../core/likely-course.ts'
import type { Plan } from '../core/plan/schema/plan.ts'
import { withZone } from '../core/plan/zone.ts'
import type { ForecastAsk, ForecastReply, PlanAsk, WarmAsk } from './forecast-protocol.ts'
import { zoneClock } from './zone-clock.ts'

/** Least time between two looks at whether the run is still wanted, ms. */
const LOOK_MS = 10
/** Least time between two words about progress, ms. */
const REPORT_MS = 100

const scope = globalThis as unknown as {
  onmessage: (event: MessageEvent<ForecastAsk>) => void
  postMessage: (reply: ForecastReply, transfer: Transferable[]) => void
}

scope.onmessage = ({ data }) => {
  if (data.kind === 'warm') {
    warm(data)
    return
  }
  const reply = compute(data)
  scope.postMessage(reply, reply.kind === 'done' ? buffersOf(reply.forecast) : [])
}

const runs = keepRuns()

/** The course as its own only variant: enough to get ready with, and never shown. */
const noRuns: BandRuns = (_, nominal) => ({ nominal, moved: [] })

/** Whether a moment is told whose early and late are not known. */
const lacksBand = ({ answers }: Forecast): boolean =>
  answers.some(({ at_h, early_h, late_h }) => at_h !== undefined && early_h === undefined && late_h === undefined)

/** A plan's own runs; where nothing is shown yet, its likely course is told before them. */
function ownRuns({ id, early }: PlanAsk, plan: Plan): BandRuns {
  const own = runs.own(plan)
  if (!early) return own
  return (resolved, nominal, ...how) => {
    scope.postMessage({ kind: 'likely', id, course: likelyCourse(resolved, nominal) }, [])
    return own(resolved, nominal, ...how)
  }
}

/** While a number is turned the quick forecast has the bands of the forecast before: one run instead of a dozen. */
function computeFor(ask: PlanAsk, plan: Plan, control: Control): Forecast {
  const made = forecast(plan, control, ask.carries ? runs.carried(plan) : ownRuns(ask, plan))
  return made.model.bands === 'carried' && lacksBand(made) ? forecast(plan, control, runs.own(plan)) : made
}

/** Whether work is no longer wanted, looked at now and then. */
function stopOf({ id, wanted }: Pick<ForecastAsk, 'id' | 'wanted'>): () => boolean {
  const flag = wanted === null ? null : new Int32Array(wanted)
  let looked = performance.now()
  return () => {
    const now = performance.now()
    if (flag === null || now - looked < LOOK_MS) return false
    looked = now
    return Atomics.load(flag, 0) !== id
  }
}

/** Code is compiled and tables of masses are made by what is computed first; better before somebody waits for it. */
function warm({ plans, ...ask }: WarmAsk): void {
  const stopped = stopOf(ask)
  try {
    for (const plan of plans) forecast(withZone({ ...plan, fidelity: 'quick' }, zoneClock), { stopped }, noRuns)
  } catch {
    // stopped for what is wanted, or such as the plan itself will tell once it is opened
  }
}

function compute(ask: PlanAsk): ForecastReply {
  const { id, plan, fidelity } = ask
  let reported = performance.now()
  try {
    const made = computeFor(ask, withZone({ ...plan, fidelity }, zoneClock), {
      now: () => performance.now(),
      stopped: stopOf(ask),
      report: (share, doing) => {
        const now = performance.now()
        if (now - reported < REPORT_MS) return
        reported = now
        scope.postMessage({ kind: 'progress', id, share, doing }, [])
      },
    })
    return { kind: 'done', id, forecast: made }
  } catch (error) {
    return unfinished(id, error)
  }
}

function unfinished(id: number, error: unknown): ForecastReply {
  if (error instanceof Cancelled) return { kind: 'stopped', id }
  if (error instanceof PlanError) return { kind: 'faults', id, faults: error.faults }
  const { stage, at_h } = error instanceof ComputeError ? error : { stage: '', at_h: 0 }
  return {
    kind: 'failed',
    id,
    failure: { reason: error instanceof Error ? error.message : String(error), stage, at_h },
  }
}

/** The memory of the film, which moves to the page instead of being copied. */
function buffersOf({ film }: Forecast): ArrayBuffer[] {
  const buffers = new Set<ArrayBuffer>()
  const add = ({ buffer }: { readonly buffer: ArrayBufferLike }): void => {
    if (buffer instanceof ArrayBuffer) buffers.add(buffer)
  }
  for (const part of film.flatMap((one) => [one, ...Object.values(one.others ?? {})])) {
    const { x_m, y_m, layer } = part.grid
    const fields = [...part.T_C, ...part.set_pct, ...part.ice_pct, ...(part.growth_log10 ? [part.growth_log10] : [])]
    for (const array of [x_m, y_m, layer, part.danger_h, ...fields]) add(array)
  }
  return [...buffers]
}
