import { Cancelled, ComputeError, PlanError } from '../core/errors.ts'
import {
  type DecidingAsk,
  type DecidingCall,
  type DecidingCalls,
  type DecidingReply,
  STOP,
} from './deciding-protocol.ts'

/** As much of a worker as is used here; tests put their own in its place. */
export interface DecidingWorker {
  onmessage: ((event: MessageEvent<DecidingReply>) => void) | null
  onerror: ((event: ErrorEvent) => void) | null
  postMessage(ask: DecidingAsk | typeof STOP): void
  terminate(): void
}

export interface DecidingOptions {
  readonly report?: (share: number, doing: string) => void
  /** Ends the computation; what it has by then is the reply, where that says anything. */
  readonly signal?: AbortSignal
}

/** How long a worker may take to give back what it has, before it is ended with nothing, ms. */
const PATIENCE_MS = 90

const startWorker = (): DecidingWorker =>
  new Worker(new URL('./deciding.worker.ts', import.meta.url), { type: 'module' }) as DecidingWorker

/**
 * Has something computed away from the page. Each call has a worker of its own, which has the parts done by others of its
 * own; all end with it, so that stopping them takes no time.
 * Rejects with `PlanError`, `ComputeError`, or `Cancelled` where the signal is aborted before there is anything to tell.
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
    let patience: ReturnType<typeof setTimeout> | undefined
    const stopped = (): void => end(() => reject(new Cancelled()))
    const stop = (): void => {
      worker.postMessage(STOP)
      patience = setTimeout(stopped, PATIENCE_MS)
    }
    const end = (settle: () => void): void => {
      clearTimeout(patience)
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
        case 'cancelled':
          stopped()
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
