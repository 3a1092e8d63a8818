import { helpInParts } from '../core/choosing/help.ts'
import { limitInParts } from '../core/choosing/limit.ts'
import { oneNumber } from '../core/choosing/one-number.ts'
import { summariseSpread } from '../core/deciding/spread.ts'
import { drawsOf } from '../core/deciding/spread-samples.ts'
import { assertNever, Cancelled, ComputeError, PlanError } from '../core/errors.ts'
import { type FittedPlan, fitInParts, prepareFit } from '../core/fitting/fit.ts'
import { askFromNow } from '../core/fitting/from-now.ts'
import { keepMeasured } from '../core/fitting/keep-measured.ts'
import type { Kept } from '../core/fitting/kept.ts'
import { dayOf } from '../core/fitting/on-the-day.ts'
import type { Plan } from '../core/plan/schema/plan.ts'
import { withZone } from '../core/plan/zone.ts'
import { doneInPool, type Report } from '../core/pooled/done-in-pool.ts'
import { samplesFromPool } from '../core/pooled/sampled.ts'
import {
  type DayReply,
  type DecidingAsk,
  type DecidingCall,
  type DecidingCalls,
  type DecidingReply,
  STOP,
} from './deciding-protocol.ts'
import { openParts } from './parts-pool.ts'
import { zoneClock } from './zone-clock.ts'

/*
 * What takes longer than a forecast, one call at a time: its parts are done by other workers side by side. Stopped, it
 * gives back what it has; whoever can't wait for that ends it, and those with it.
 */

/** Least time between two words about progress, ms. */
const REPORT_MS = 100
/** Fewer runs say nothing of the ends of a band. */
const LEAST_RUNS = 20

const scope = globalThis as unknown as {
  onmessage: (event: MessageEvent<DecidingAsk | typeof STOP>) => void
  postMessage: (reply: DecidingReply) => void
}

const cancel = new AbortController()

scope.onmessage = async ({ data }) => {
  if (data === STOP) cancel.abort()
  else scope.postMessage(await answer(data))
}

async function answer(asked: DecidingAsk): Promise<DecidingReply> {
  let reported = performance.now()
  const report: Report = (share, doing) => {
    const now = performance.now()
    if (now - reported < REPORT_MS || cancel.signal.aborted) return
    reported = now
    scope.postMessage({ kind: 'progress', share, doing })
  }
  try {
    return { kind: 'done', reply: await compute(zonedAsk(asked), report) }
  } catch (error) {
    if (error instanceof Cancelled) return { kind: 'cancelled' }
    if (error instanceof PlanError) return { kind: 'faults', faults: error.faults }
    const { stage, at_h } = error instanceof ComputeError ? error : { stage: '', at_h: 0 }
    const reason = error instanceof Error ? error.message : String(error)
    return { kind: 'failed', failure: { reason, stage, at_h } }
  }
}

/** The same of a plan with the changes of its clock. */
const zonedAsk = (asked: DecidingAsk): DecidingAsk =>
  ({ ...asked, ask: { ...asked.ask, plan: withZone(asked.ask.plan, zoneClock) } }) as DecidingAsk

async function compute(asked: DecidingAsk, report: Report): Promise<DecidingCalls[DecidingCall]['reply']> {
  switch (asked.call) {
    case 'day':
      return dayReply(asked.ask.plan, report)
    case 'help': {
      const { plan, question } = asked.ask
      return doneInPool(looks(), (atOnce) => helpInParts(plan, question, {}, atOnce), report)
    }
    case 'helpNow': {
      const { plan, question } = asked.ask
      const now = askFromNow(plan, await fitted(plan, () => undefined))
      const { changes } = now
      const help = (atOnce: number) => helpInParts(now.plan, question, { changes }, atOnce)
      return now.told(await doneInPool(looks(), help, report))
    }
    case 'limit': {
      const { plan, path, question, ...ask } = asked.ask
      return doneInPool(looks(), (atOnce) => limitInParts(oneNumber(plan, path), question, ask, atOnce), report)
    }
    case 'spread':
      return spreadReply(asked.ask, report)
    default:
      return assertNever(asked)
  }
}

const looks = () => openParts('looks', null, cancel.signal)

async function spreadReply({ plan, ...ask }: DecidingCalls['spread']['ask'], report: Report) {
  const pool = openParts('spread', { plan, ask }, cancel.signal)
  const { done, samples, task, likely } = await samplesFromPool(pool, ask, report)
  if (done.length < Math.min(LEAST_RUNS, ask.runs)) throw new Cancelled()
  return summariseSpread(drawsOf(task, done), { ...ask, runs: done.length }, likely, samples)
}

async function fitted(plan: Plan, report: Report): Promise<FittedPlan> {
  const task = prepareFit(plan, plan.readings ?? [])
  return doneInPool(openParts('fit', task.start, cancel.signal), () => fitInParts(task), report)
}

async function dayReply(plan: Plan, report: Report): Promise<DayReply> {
  const part =
    (from: number, to: number): Report =>
    (share, doing) =>
      report(from + (to - from) * share, doing)
  const fit = (plan.readings ?? []).length === 0 ? null : await fitted(plan, part(0, 0.5))
  const day = dayOf(plan, fit, { report: part(0.5, 1), now: () => performance.now() })
  return { ...day, keepable: fit === null ? null : keepable(plan, fit) }
}

/** What of a fit is worth keeping; nothing is where it determined nothing. */
function keepable(plan: Plan, fit: FittedPlan): Kept | null {
  try {
    return keepMeasured(plan, fit)
  } catch (error) {
    if (error instanceof PlanError) return null
    throw error
  }
}
