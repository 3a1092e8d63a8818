import { openPool, type Pool, type StartThread, type StopSignal } from '../core/pooled/pool.ts'
import type { WorkerSays } from '../core/pooled/work.ts'
import type { PartsName, PartsStart, PartsWorks } from './parts-protocol.ts'

/** More of them would have more memory than they save time. */
const MOST_WORKERS = 8

/** How many parts are done at a time on a machine of so many threads. */
export const partsAtOnce = (threads: number): number => Math.min(MOST_WORKERS, Math.max(1, Math.floor(threads) || 1))

const startIn =
  (begun: PartsStart): StartThread =>
  ({ said, broken }) => {
    const worker = new Worker(new URL('./parts.worker.ts', import.meta.url), { type: 'module' })
    worker.onmessage = ({ data }: MessageEvent<WorkerSays>) => said(data)
    worker.onerror = ({ message }) => broken(new Error(message || 'a part of it could not be started'))
    worker.postMessage(begun)
    return { send: (part) => worker.postMessage(part), end: () => worker.terminate() }
  }

/** Opens a pool of workers beside this one, as many as the machine has room for. */
export const openParts = <Name extends PartsName>(
  name: Name,
  start: PartsWorks[Name]['start'],
  signal: StopSignal,
): Pool<PartsWorks[Name]> =>
  openPool(startIn({ name, start }), { workers: partsAtOnce(navigator.hardwareConcurrency), signal })
