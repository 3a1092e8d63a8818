import type { Control } from '../control.ts'
import { ComputeError, PlanError } from '../errors.ts'
import type { Begin, DoPart, Work, WorkerSays } from './work.ts'

/** Least time between two words about progress, ms. */
const REPORT_MS = 100

/**
 * The side of a pool that a worker is: makes itself ready once, then does the parts that it is handed. Mistakes of the
 * person and computations that can't be finished are said; all else is thrown.
 * @param now  milliseconds of some steady clock
 */
export function answering(
  begin: () => Begin<Work> | Promise<Begin<Work>>,
  start: unknown,
  say: (said: WorkerSays) => void,
  now: () => number,
): (part: unknown) => Promise<void> {
  let reported = 0
  const control: Control = {
    now,
    report: (share) => {
      if (now() - reported < REPORT_MS) return
      reported = now()
      say({ kind: 'progress', share })
    },
  }
  let doPart: DoPart<Work> | undefined
  const answer = async (part: unknown): Promise<WorkerSays> => {
    try {
      doPart ??= (await begin())(start)
      return { kind: 'done', reply: await doPart(part, control) }
    } catch (error) {
      if (error instanceof PlanError) return { kind: 'faults', faults: error.faults }
      if (!(error instanceof ComputeError)) throw error
      return { kind: 'failed', reason: error.reason, stage: error.stage, at_h: error.at_h }
    }
  }
  return async (part) => say(await answer(part))
}
