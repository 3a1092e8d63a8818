import { existsSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import { Worker } from 'node:worker_threads'
import { assertNever, Cancelled, ComputeError, PlanError } from '../../core/errors.ts'
import { codeOf } from '../atomic-file.ts'
import type { WorkerSays, WorkerStart, WorkName, Works } from './work.ts'

/** How often a part is handed to a new worker after the one that had it has ended. */
const MOST_AGAIN = 2

/** The built worker: beside the program, or beside the folder of its parts. */
function workerFile(): string {
  const beside = join(import.meta.dirname, 'pool-worker.js')
  return existsSync(beside) ? beside : join(import.meta.dirname, '..', 'pool-worker.js')
}

export interface PoolOptions {
  /** Parts that are done at a time; as many as the machine runs threads if left out. */
  readonly workers?: number | undefined
  /** The built worker, where it doesn't lie beside the program. */
  readonly file?: string
  /** Ends the workers at once; what they had is `Cancelled`. */
  readonly signal?: AbortSignal
}

/** Worker threads that do the parts of one work, each as soon as one is free, in the order in which they are asked. */
export interface Pool<Name extends WorkName> {
  readonly workers: number
  /** Rejects with `PlanError`, `ComputeError`, or `Cancelled` once the pool has ended. */
  readonly ask: (part: Works[Name]['part'], report?: (share: number) => void) => Promise<Works[Name]['reply']>
  readonly end: () => void
}

/** A part that waits for a worker, or that one has. */
interface Asked {
  readonly part: unknown
  readonly report: ((share: number) => void) | undefined
  readonly resolve: (reply: unknown) => void
  readonly reject: (error: Error) => void
  /** Workers that ended while they had it. */
  readonly lost: number
}

/** How many parts the machine can do at a time. */
export const usualWorkers = (): number => availableParallelism()

/**
 * Opens a pool. A worker that ends by itself (killed, out of memory) is replaced, and its part is done again. Its workers are started when there is something for them to do, and no more of them than that; they
 * run until the pool is ended.
 * @param start  what each worker is made ready with
 */
export function openPool<Name extends WorkName>(
  name: Name,
  start: Works[Name]['start'],
  { workers = usualWorkers(), file = workerFile(), signal }: PoolOptions = {},
): Pool<Name> {
  const threads: Worker[] = []
  const idle: Worker[] = []
  const waiting: Asked[] = []
  const running = new Map<Worker, Asked>()
  let ended: Error | undefined

  const end = (why: Error = new Cancelled()): void => {
    if (ended !== undefined) return
    ended = why
    signal?.removeEventListener('abort', stop)
    for (const thread of threads) void thread.terminate()
    for (const { reject } of [...running.values(), ...waiting.splice(0)]) reject(why)
    running.clear()
  }
  const stop = (): void => end()

  const hear = (thread: Worker, said: WorkerSays): void => {
    const asked = running.get(thread)
    if (asked === undefined) return
    if (said.kind === 'progress') {
      asked.report?.(said.share)
      return
    }
    running.delete(thread)
    idle.push(thread)
    settle(asked, said)
    hand()
  }

  const lose = (thread: Worker, reason: string): void => {
    const asked = running.get(thread)
    running.delete(thread)
    for (const list of [threads, idle]) if (list.includes(thread)) list.splice(list.indexOf(thread), 1)
    if (ended !== undefined) return
    if (asked !== undefined && asked.lost >= MOST_AGAIN)
      asked.reject(new ComputeError(`a part of the computation ended, ${reason}`, '', 0))
    else if (asked !== undefined) waiting.unshift({ ...asked, lost: asked.lost + 1 })
    hand()
  }

  const startThread = (): Worker => {
    const data: WorkerStart = { name, start }
    const thread = new Worker(file, { workerData: data })
    threads.push(thread)
    let reason = 'stopped from outside'
    thread.on('error', (error: unknown) => {
      if (codeOf(error) === 'ERR_WORKER_OUT_OF_MEMORY') reason = 'out of memory'
      else end(error instanceof Error ? error : new Error(String(error)))
    })
    thread.on('exit', () => lose(thread, reason))
    thread.on('message', (said: WorkerSays) => hear(thread, said))
    return thread
  }

  const hand = (): void => {
    while (waiting.length > 0) {
      const thread = idle.pop() ?? (threads.length < workers ? startThread() : undefined)
      const asked = thread === undefined ? undefined : waiting.shift()
      if (thread === undefined || asked === undefined) return
      running.set(thread, asked)
      thread.postMessage(asked.part)
    }
  }

  if (signal?.aborted === true) end()
  else signal?.addEventListener('abort', stop)

  return {
    workers,
    ask: (part, report) =>
      new Promise((resolve, reject) => {
        if (ended !== undefined) {
          reject(ended)
          return
        }
        // The worker of this name gives replies of this kind.
        waiting.push({ part, report, resolve: resolve as (reply: unknown) => void, reject, lost: 0 })
        hand()
      }),
    end: stop,
  }
}

function settle({ resolve, reject }: Asked, said: Exclude<WorkerSays, { kind: 'progress' }>): void {
  switch (said.kind) {
    case 'done':
      resolve(said.reply)
      return
    case 'faults':
      reject(new PlanError(said.faults))
      return
    case 'failed':
      reject(new ComputeError(said.reason, said.stage, said.at_h))
      return
    default:
      assertNever(said)
  }
}
