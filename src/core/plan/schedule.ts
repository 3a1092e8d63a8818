import type { Ending } from '../journey/job.ts'
import { fromHours, HOUR } from '../units.ts'
import { type ClockChange, type ClockMoment, clockMoment, nextAfter } from './clock.ts'
import type { PlanStage } from './schema/plan.ts'

/** Longest that a stage may wait for its core temperature when the plan gives no guard, h. */
export const GUARD_h = 168

/** When a stage begins and ends, as far as it can be told before anything is computed; seconds since the start. */
export interface Scheduled {
  readonly ending: Ending
  /** Null once a stage before it ends by a temperature. */
  readonly begins: number | null
  /** Null when it ends by a temperature, or begins at an unknown moment. */
  readonly ends: number | null
  readonly guarded: boolean
  /** The plan's date and time for its end lies before it begins. */
  readonly late: boolean
}

function schedule(until: PlanStage['until'], moment: ClockMoment | undefined, begins: number | null): Scheduled {
  const after = until.after_h === undefined ? undefined : fromHours(until.after_h)
  const clock = moment === undefined ? undefined : begins === null ? moment.first : nextAfter(moment, begins)
  const repeats = begins === null ? moment?.every : undefined
  const late = clock === null
  // Where the stage's beginning is unknown, a moment of the plan still bounds its length, and a time of day by a day.
  const byClock =
    clock === undefined || clock === null ? undefined : begins === null ? (repeats ?? clock) : clock - begins
  const longest = Math.min(...[after, byClock].filter((length) => length !== undefined))
  const guarded = until.max_h === undefined && !Number.isFinite(longest)
  const max = until.max_h !== undefined ? fromHours(until.max_h) : guarded ? GUARD_h * HOUR : longest
  const waits = [until.core_C, until.surface_C, until.mean_C, until.probe, until.target].some(
    (end) => end !== undefined,
  )
  const known = begins !== null && !waits && !late
  return {
    ending: {
      ...(after === undefined ? {} : { after }),
      ...(until.core_C === undefined ? {} : { core_C: until.core_C }),
      ...(clock === undefined || clock === null ? {} : { clock }),
      ...(repeats === undefined ? {} : { clockEvery: repeats }),
      ...(repeats === undefined || moment?.all === undefined ? {} : { clockAll: moment.all }),
      max,
    },
    begins,
    ends: known ? begins + Math.min(max, longest) : null,
    guarded,
    late,
  }
}

/** Beginnings and ends of all stages in order; clocks that can't be read count as none. */
export function scheduleStages(
  startsAt: string,
  ends: readonly PlanStage['until'][],
  changes: readonly ClockChange[] = [],
): Scheduled[] {
  const scheduled: Scheduled[] = []
  let begins: number | null = 0
  for (const until of ends) {
    const moment = until.clock === undefined ? undefined : (clockMoment(startsAt, until.clock, changes) ?? undefined)
    const stage: Scheduled = schedule(until, moment, begins)
    scheduled.push(stage)
    begins = stage.ends
  }
  return scheduled
}
