import { Cancelled } from '../../core/errors.ts'
import type { InParts } from '../../core/in-parts.ts'
import { openPool, type PoolOptions } from './pool.ts'
import type { WorkName, Works } from './work.ts'

export interface PooledOptions extends PoolOptions {
  readonly report?: ((share: number, doing: string) => void) | undefined
}

/**
 * Does a computation's parts on worker threads, those of a turn side by side. What its signal stops is left undone, and
 * the computation ends with what it has.
 * @param work  given how many parts are done at a time
 */
export async function doneInPool<Name extends WorkName, Result>(
  name: Name,
  start: Works[Name]['start'],
  work: (atOnce: number) => InParts<Works[Name]['part'], Works[Name]['reply'], Result>,
  { report, ...options }: PooledOptions = {},
): Promise<Result> {
  const pool = openPool(name, start, options)
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
