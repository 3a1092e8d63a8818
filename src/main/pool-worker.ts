import { parentPort, workerData } from 'node:worker_threads'
import type { Control } from '../core/control.ts'
import { ComputeError, PlanError } from '../core/errors.ts'
import type { Begin, DoPart, Work, WorkerSays, WorkerStart } from './pool/work.ts'
import { works } from './pool/works.ts'

/* One worker of the pool: loads its kind of work, makes itself ready once, then does the parts that it is handed. */

/** Least time between two words about progress, ms. */
const REPORT_MS = 100

const { name, start } = workerData as WorkerStart
const port = parentPort
const say = (said: WorkerSays): void => port?.postMessage(said)

let reported = 0
const now = (): number => performance.now()
const control: Control = {
  now,
  report: (share) => {
    if (now() - reported < REPORT_MS) return
    reported = now()
    say({ kind: 'progress', share })
  },
}

let doPart: DoPart<Work> | undefined

async function answer(part: unknown): Promise<WorkerSays> {
  try {
    // A part is of the kind that the worker was started for.
    doPart ??= ((await works[name]()) as unknown as Begin<Work>)(start)
    return { kind: 'done', reply: await doPart(part, control) }
  } catch (error) {
    if (error instanceof PlanError) return { kind: 'faults', faults: error.faults }
    if (!(error instanceof ComputeError)) throw error
    return { kind: 'failed', reason: error.reason, stage: error.stage, at_h: error.at_h }
  }
}

port?.on('message', async (part: unknown) => say(await answer(part)))
