import { existsSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import { Worker } from 'node:worker_threads'
import type { SpreadAsk } from '../../core/deciding/spread-samples.ts'
import { Cancelled, ComputeError } from '../../core/errors.ts'
import type { Plan } from '../../core/plan/schema.ts'
import type { RunsAsked, RunsDone, WorkerStart } from './runs.ts'

/** Runs handed over at once: few, so that all workers end together and progress is seen. */
const AT_ONCE = 8

/** The built worker: beside the program, or beside the folder of its parts. */
function workerFile(): string {
  const beside = join(import.meta.dirname, 'spread-worker.js')
  return existsSync(beside) ? beside : join(import.meta.dirname, '..', 'spread-worker.js')
}

export interface PoolOptions {
  readonly workers?: number
  /** The built worker, where it doesn't lie beside the program. */
  readonly file?: string
  readonly report?: (share: number, doing: string) => void
  /** Ends the workers and throws `Cancelled`. */
  readonly signal?: AbortSignal
}

/** How many workers a spread is given where nobody says: as many as the machine runs at a time. */
export const usualWorkers = (runs: number): number =>
  Math.max(1, Math.min(availableParallelism(), Math.ceil(runs / AT_ONCE)))

/**
 * All runs of a spread, on worker threads; the same numbers however many there are.
 * @param width  columns of a row
 * @returns Shape: runs × width, row-major
 */
export function samplesFromPool(
  plan: Plan,
  ask: SpreadAsk,
  width: number,
  { workers = usualWorkers(ask.runs), file = workerFile(), report, signal }: PoolOptions = {},
): Promise<Float64Array> {
  const samples = new Float64Array(ask.runs * width)
  const start: WorkerStart = { plan, ask }
  let next = 0
  let done = 0
  const pool: Worker[] = []
  const end = (): void => {
    for (const worker of pool) void worker.terminate()
  }
  return new Promise<Float64Array>((resolve, reject) => {
    const fail = (error: Error): void => {
      end()
      reject(error)
    }
    if (signal?.aborted === true) return fail(new Cancelled())
    signal?.addEventListener('abort', () => fail(new Cancelled()), { once: true })
    const hand = (worker: Worker): void => {
      if (next >= ask.runs) return
      const asked: RunsAsked = { from: next, to: Math.min(ask.runs, next + AT_ONCE) }
      next = asked.to
      worker.postMessage(asked)
    }
    for (let index = 0; index < workers; index++) {
      const worker = new Worker(file, { workerData: start })
      pool.push(worker)
      worker.on('error', fail)
      worker.on('message', (answer: RunsDone) => {
        if (answer.kind === 'failed') {
          fail(new ComputeError(`one of the runs: ${answer.reason}`, answer.stage, answer.at_h))
          return
        }
        samples.set(answer.rows, answer.from * width)
        done += answer.rows.length / width
        report?.(done / ask.runs, `spread, run ${done} of ${ask.runs}`)
        if (done < ask.runs) return hand(worker)
        end()
        resolve(samples)
      })
      hand(worker)
    }
  })
}
