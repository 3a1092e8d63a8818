import { parentPort, workerData } from 'node:worker_threads'
import { computeSamples, prepareSpread } from '../core/deciding/spread-samples.ts'
import { ComputeError } from '../core/errors.ts'
import type { RunsAsked, RunsDone, WorkerStart } from './spread/runs.ts'

/* One worker of a spread: makes the plan ready once, then computes whatever runs it is asked for. */

const { plan, ask } = workerData as WorkerStart
const port = parentPort

let task: ReturnType<typeof prepareSpread> | undefined

function answer({ from, to }: RunsAsked): RunsDone {
  try {
    task ??= prepareSpread(plan, ask)
    return { kind: 'rows', from, rows: computeSamples(task, from, to) }
  } catch (error) {
    if (!(error instanceof ComputeError)) throw error
    return { kind: 'failed', stage: error.stage, at_h: error.at_h, reason: error.message }
  }
}

port?.on('message', (asked: RunsAsked) => port.postMessage(answer(asked)))
