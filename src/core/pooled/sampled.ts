import type { SpreadAsk } from '../deciding/spread-samples.ts'
import { Cancelled, ComputeError } from '../errors.ts'
import type { Report } from './done-in-pool.ts'
import type { Pool } from './pool.ts'
import type { SpreadWork, Told } from './spread-work.ts'

/** Runs handed over at once: few, so that all workers end together and progress is seen. */
const AT_ONCE = 8

/** A spread's samples with what they are told with. */
export interface Sampled extends Told {
  /** Numbers of the runs that were done, rising. */
  readonly done: readonly number[]
  /** Shape: done × columns.width, row-major */
  readonly samples: Float64Array
}

/**
 * All runs of a spread on a pool that was started for it, which is ended then; the same numbers however many workers
 * there are. Stopped by its signal it gives the runs that were done by then.
 * Rejects with `ComputeError`, or `Cancelled` where it is stopped before there is anything to tell.
 */
export async function samplesFromPool(pool: Pool<SpreadWork>, ask: SpreadAsk, report?: Report): Promise<Sampled> {
  const parts = Array.from({ length: Math.ceil(ask.runs / AT_ONCE) }, (_, part) => ({
    from: part * AT_ONCE,
    to: Math.min(ask.runs, (part + 1) * AT_ONCE),
  }))
  let done = 0
  const told = pool.ask('told')
  // Looked at when the runs are over.
  told.catch(() => undefined)
  const rows = parts.map(async (part) => {
    const reply = await pool.ask(part)
    done += part.to - part.from
    report?.(done / ask.runs, `spread, run ${done} of ${ask.runs}`)
    return { ...part, rows: reply as Float64Array }
  })
  try {
    const settled = await Promise.allSettled(rows)
    const failed = settled.find((one) => one.status === 'rejected' && !(one.reason instanceof Cancelled))
    if (failed?.status === 'rejected') throw tellRun(failed.reason)
    const finished = settled.flatMap((one) => (one.status === 'fulfilled' ? [one.value] : []))
    return { ...((await told) as Told), ...joined(finished) }
  } finally {
    pool.end()
  }
}

function joined(parts: readonly { from: number; to: number; rows: Float64Array }[]): Pick<Sampled, 'done' | 'samples'> {
  const samples = new Float64Array(parts.reduce((sum, { rows }) => sum + rows.length, 0))
  let at = 0
  for (const { rows } of parts) {
    samples.set(rows, at)
    at += rows.length
  }
  return { done: parts.flatMap(({ from, to }) => Array.from({ length: to - from }, (_, i) => from + i)), samples }
}

const tellRun = (error: unknown): unknown =>
  error instanceof ComputeError ? new ComputeError(`one of the runs: ${error.reason}`, error.stage, error.at_h) : error
