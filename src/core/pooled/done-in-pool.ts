import { Cancelled } from '../errors.ts'
import type { InParts } from '../in-parts.ts'
import type { Pool } from './pool.ts'
import type { Work } from './work.ts'

/** How far work is, and what is being done. */
export type Report = (share: number, doing: string) => void

/**
 * Does a computation's parts on a pool, those of a turn side by side, and ends the pool. What its signal stops is left
 * undone, and the computation ends with what it has.
 * @param work  given how many parts are done at a time
 */
export async function doneInPool<Of extends Work, Result>(
  pool: Pool<Of>,
  work: (atOnce: number) => InParts<Of['part'], Of['reply'], Result>,
  report?: Report,
): Promise<Result> {
  try {
    const turns = work(pool.workers)
    let next = turns.next([])
    while (next.done !== true) {
      const { parts, doing, from, to } = next.value
      const shares = new Float64Array(parts.length)
      const tell = (index: number) => (share: number) => {
        shares[index] = share
        report?.(from + ((to - from) * shares.reduce((sum, one) => sum + one, 0)) / parts.length, doing)
      }
      const done = parts.map(async (part, index) => {
        const reply = await pool.ask(part, tell(index)).catch(undone)
        tell(index)(1)
        return reply
      })
      next = turns.next(await Promise.all(done))
    }
    return next.value
  } finally {
    pool.end()
  }
}

function undone(error: unknown): undefined {
  if (!(error instanceof Cancelled)) throw error
}
