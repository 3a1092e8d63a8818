import { whatWouldHelp } from '../core/choosing/help.ts'
import { findLimit } from '../core/choosing/limit.ts'
import { oneNumber } from '../core/choosing/one-number.ts'
import type { Control } from '../core/control.ts'
import { summariseSpread } from '../core/deciding/spread.ts'
import { computeSamples, prepareSpread } from '../core/deciding/spread-samples.ts'
import { assertNever, ComputeError, PlanError } from '../core/errors.ts'
import type { FittedPlan } from '../core/fitting/fit.ts'
import { whatHelpsNow } from '../core/fitting/from-now.ts'
import { keepMeasured } from '../core/fitting/keep-measured.ts'
import type { Kept } from '../core/fitting/kept.ts'
import { fittedDay } from '../core/fitting/on-the-day.ts'
import { forecast } from '../core/forecast.ts'
import type { Plan } from '../core/plan/schema/plan.ts'
import { withZone } from '../core/plan/zone.ts'
import type { DayReply, DecidingAsk, DecidingCall, DecidingCalls, DecidingReply } from './deciding-protocol.ts'
import { zoneClock } from './zone-clock.ts'

/* What takes longer than a forecast, one call at a time; whoever no longer wants it ends the worker. */

/** Least time between two words about progress, ms. */
const REPORT_MS = 100

const scope = globalThis as unknown as {
  onmessage: (event: MessageEvent<DecidingAsk>) => void
  postMessage: (reply: DecidingReply) => void
}

scope.onmessage = ({ data }) => scope.postMessage(answer(data))

function answer(asked: DecidingAsk): DecidingReply {
  let reported = performance.now()
  const control: Control = {
    now: () => performance.now(),
    report: (share, doing) => {
      const now = performance.now()
      if (now - reported < REPORT_MS) return
      reported = now
      scope.postMessage({ kind: 'progress', share, doing })
    },
  }
  try {
    return { kind: 'done', reply: compute(zonedAsk(asked), control) }
  } catch (error) {
    if (error instanceof PlanError) return { kind: 'faults', faults: error.faults }
    const { stage, at_h } = error instanceof ComputeError ? error : { stage: '', at_h: 0 }
    const reason = error instanceof Error ? error.message : String(error)
    return { kind: 'failed', failure: { reason, stage, at_h } }
  }
}

/** The same of a plan with the changes of its clock. */
const zonedAsk = (asked: DecidingAsk): DecidingAsk =>
  ({ ...asked, ask: { ...asked.ask, plan: withZone(asked.ask.plan, zoneClock) } }) as DecidingAsk

function compute(asked: DecidingAsk, control: Control): DecidingCalls[DecidingCall]['reply'] {
  switch (asked.call) {
    case 'day':
      return dayWithFit(asked.ask.plan, control)
    case 'help':
      return whatWouldHelp(asked.ask.plan, asked.ask.question, {}, control)
    case 'helpNow':
      return whatHelpsNow(asked.ask.plan, asked.ask.question, control)
    case 'limit': {
      const { plan, path, question, ...ask } = asked.ask
      return findLimit(oneNumber(plan, path), question, ask, control)
    }
    case 'spread': {
      const { plan, ...ask } = asked.ask
      const task = prepareSpread(plan, ask)
      return summariseSpread(task, ask, forecast(plan), computeSamples(task, 0, ask.runs, control))
    }
    default:
      return assertNever(asked)
  }
}

function dayWithFit(plan: Plan, control: Control): DayReply {
  const { day, fitted } = fittedDay(plan, control)
  return { ...day, keepable: fitted === null ? null : keepable(plan, fitted) }
}

/** What of a fit is worth keeping; nothing is where it determined nothing. */
function keepable(plan: Plan, fitted: FittedPlan): Kept | null {
  try {
    return keepMeasured(plan, fitted)
  } catch (error) {
    if (error instanceof PlanError) return null
    throw error
  }
}
