import { Cancelled, ComputeError, PlanError } from '../core/errors.ts'
import type { DecidingAsk, DecidingCall, DecidingCalls, DecidingReply } from './deciding-protocol.ts'

/** As much of a worker as is used here; tests put their own in its place. */
export interface DecidingWorker {
  onmessage: ((event: MessageEvent<DecidingReply>) => void) | null
  onerror: ((event: ErrorEvent) => void) | null
  postMessage(ask: DecidingAsk): void
  terminate(): void
}

export interface DecidingOptions {
  readonly report?: (share: number, doing: string) => void
  /** Ends the computation at once. */
  readonly signal?: AbortSignal
}

const startWorker = (): DecidingWorker =>
  new Worker(new URL('./deciding.worker.ts', import.meta.url), { type: 'module' }) as DecidingWorker

/**
 * Has something computed away from the page. Each call has a worker of its own, so that stopping it takes no time.
 * Rejects with `PlanError`, `ComputeError`, or `Cancelled` once the signal is aborted.
 */
export function decide<Call extends DecidingCall>(
  call: Call,
  ask: DecidingCalls[Call]['ask'],
  { report, signal }: DecidingOptions = {},
  start: () => DecidingWorker = startWorker,
): Promise<DecidingCalls[Call]['reply']> {
  return new Promise((resolve, reject) => {
    if (signal?.aborted === true) {
      reject(new Cancelled())
      return
    }
    const worker = start()
    const stop = (): void => end(() => reject(new Cancelled()))
    const end = (settle: () => void): void => {
      worker.terminate()
      signal?.removeEventListener('abort', stop)
      settle()
    }
    signal?.addEventListener('abort', stop)
    worker.onerror = ({ message }) => end(() => reject(new ComputeError(message || 'it could not be started', '', 0)))
    worker.onmessage = ({ data }) => {
      switch (data.kind) {
        case 'progress':
          report?.(data.share, data.doing)
          return
        case 'done':
          end(() => resolve(data.reply as DecidingCalls[Call]['reply']))
          return
        case 'faults':
          end(() => reject(new PlanError(data.faults)))
          return
        case 'failed':
          end(() => reject(new ComputeError(data.failure.reason, data.failure.stage, data.failure.at_h)))
          return
      }
    }
    worker.postMessage({ call, ask } as DecidingAsk)
  })
}
