import { existsSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import { Worker } from 'node:worker_threads'
import type { InParts } from '../../core/in-parts.ts'
import { doneInPool, type Report } from '../../core/pooled/done-in-pool.ts'
import { openPool, type Pool, type StartThread } from '../../core/pooled/pool.ts'
import type { WorkerSays } from '../../core/pooled/work.ts'
import { codeOf } from '../atomic-file.ts'
import type { WorkerStart, WorkName, Works } from './work.ts'

/** The built worker: beside the program, or beside the folder of its parts. */
function workerFile(): string {
  const beside = join(import.meta.dirname, 'pool-worker.js')
  return existsSync(beside) ? beside : join(import.meta.dirname, '..', 'pool-worker.js')
}

export interface ThreadOptions {
  /** Parts that are done at a time; as many as the machine runs threads if left out. */
  readonly workers?: number | undefined
  /** The built worker, where it doesn't lie beside the program. */
  readonly file?: string
  /** Ends the workers at once; what they had is `Cancelled`. */
  readonly signal?: AbortSignal
}

/** How many parts the machine can do at a time. */
export const usualWorkers = (): number => availableParallelism()

const startIn =
  (file: string, data: WorkerStart): StartThread =>
  ({ said, lost, broken }) => {
    const worker = new Worker(file, { workerData: data })
    let reason = 'stopped from outside'
    worker.on('error', (error: unknown) => {
      if (codeOf(error) === 'ERR_WORKER_OUT_OF_MEMORY') reason = 'out of memory'
      else broken(error instanceof Error ? error : new Error(String(error)))
    })
    worker.on('exit', () => lost(reason))
    worker.on('message', (message: WorkerSays) => said(message))
    return { send: (part) => worker.postMessage(part), end: () => void worker.terminate() }
  }

/**
 * Opens a pool of worker threads.
 * @param start  what each worker is made ready with
 */
export const openThreads = <Name extends WorkName>(
  name: Name,
  start: Works[Name]['start'],
  { workers = usualWorkers(), file = workerFile(), signal }: ThreadOptions = {},
): Pool<Works[Name]> => openPool(startIn(file, { name, start }), { workers, signal })

/** Does a computation's parts on worker threads; see `doneInPool`. */
export const doneOnThreads = <Name extends WorkName, Result>(
  name: Name,
  start: Works[Name]['start'],
  work: (atOnce: number) => InParts<Works[Name]['part'], Works[Name]['reply'], Result>,
  { report, ...options }: ThreadOptions & { readonly report?: Report | undefined } = {},
): Promise<Result> => doneInPool(openThreads(name, start, options), work, report)
