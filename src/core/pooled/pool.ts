import { assertNever, Cancelled, ComputeError, PlanError } from '../errors.ts'
import type { Work, WorkerSays } from './work.ts'

/*
 * Workers that do the parts of one work side by side. What a worker is (a thread of Node's, a worker of the page) is for
 * whoever starts them.
 */

/** How often a part is handed to a new worker after the one that had it has ended. */
const MOST_AGAIN = 2

/** A worker that was started. */
export interface Thread {
  readonly send: (part: unknown) => void
  readonly end: () => void
}

/** What is heard of a worker. */
export interface Heard {
  readonly said: (said: WorkerSays) => void
  /** It has ended by itself: the part that it had is done again. */
  readonly lost: (reason: string) => void
  /** It can't do such work at all. */
  readonly broken: (error: Error) => void
}

export type StartThread = (heard: Heard) => Thread

/** As much of an `AbortSignal` as is used here. */
export interface StopSignal {
  readonly aborted: boolean
  addEventListener(kind: 'abort', stop: () => void): void
  removeEventListener(kind: 'abort', stop: () => void): void
}

export interface PoolOptions {
  /** Parts that are done at a time. */
  readonly workers: number
  /** Ends the workers at once; what they had is `Cancelled`. */
  readonly signal?: StopSignal | undefined
}

/** Workers that do the parts of one work, each as soon as one is free, in the order in which they are asked. */
export interface Pool<Of extends Work> {
  readonly workers: number
  /** Rejects with `PlanError`, `ComputeError`, or `Cancelled` once the pool has ended. */
  readonly ask: (part: Of['part'], report?: (share: number) => void) => Promise<Of['reply']>
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

/**
 * Opens a pool. Its workers are started when there is something for them to do, and no more of them than that; they run
 * until the pool is ended. One that ends by itself (killed, out of memory) is replaced, and its part is done again.
 */
export function openPool<Of extends Work>(start: StartThread, { workers, signal }: PoolOptions): Pool<Of> {
  const threads = new Set<Thread>()
  const idle: Thread[] = []
  const waiting: Asked[] = []
  const running = new Map<Thread, Asked>()
  let ended: Error | undefined

  const end = (why: Error = new Cancelled()): void => {
    if (ended !== undefined) return
    ended = why
    signal?.removeEventListener('abort', stop)
    for (const thread of threads) thread.end()
    for (const { reject } of [...running.values(), ...waiting.splice(0)]) reject(why)
    running.clear()
  }
  const stop = (): void => end()

  const hear = (thread: Thread, said: WorkerSays): void => {
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

  const lose = (thread: Thread, reason: string): void => {
    const asked = running.get(thread)
    running.delete(thread)
    threads.delete(thread)
    if (idle.includes(thread)) idle.splice(idle.indexOf(thread), 1)
    if (ended !== undefined) return
    if (asked !== undefined && asked.lost >= MOST_AGAIN)
      asked.reject(new ComputeError(`a part of the computation ended, ${reason}`, '', 0))
    else if (asked !== undefined) waiting.unshift({ ...asked, lost: asked.lost + 1 })
    hand()
  }

  const startThread = (): Thread => {
    const thread = start({
      said: (said) => hear(thread, said),
      lost: (reason) => lose(thread, reason),
      broken: (error) => end(error),
    })
    threads.add(thread)
    return thread
  }

  const hand = (): void => {
    while (waiting.length > 0) {
      const thread = idle.pop() ?? (threads.size < workers ? startThread() : undefined)
      const asked = thread === undefined ? undefined : waiting.shift()
      if (thread === undefined || asked === undefined) return
      running.set(thread, asked)
      thread.send(asked.part)
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
        // The workers of a work give replies of its kind.
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
