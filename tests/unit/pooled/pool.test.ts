import { describe, expect, it } from 'vitest'

import { Cancelled, ComputeError } from '../../../src/core/errors.ts'
import type { InParts } from '../../../src/core/in-parts.ts'
import { answering } from '../../../src/core/pooled/answering.ts'
import { doneInPool } from '../../../src/core/pooled/done-in-pool.ts'
import { type Heard, openPool } from '../../../src/core/pooled/pool.ts'
import { partsAtOnce } from '../../../src/renderer/parts-pool.ts'

/** Numbers that are squared; workers answer when the test says so. */
interface Squaring {
  readonly start: null
  readonly part: number
  readonly reply: number
}

type Squares = InParts<number, number, readonly (number | undefined)[]>

function standIns() {
  const threads: { heard: Heard; parts: number[]; ended: boolean }[] = []
  const start = (heard: Heard) => {
    const thread = { heard, parts: [] as number[], ended: false }
    threads.push(thread)
    return {
      send: (part: unknown) => thread.parts.push(part as number),
      end: () => {
        thread.ended = true
      },
    }
  }
  /** The part that a worker has is done. */
  const finish = (index: number): void => {
    const { heard, parts } = threads[index]!
    heard.said({ kind: 'done', reply: parts.at(-1)! ** 2 })
  }
  return { threads, start, finish }
}

describe('a pool of any workers', () => {
  it('starts no more workers than there are parts, or than it may, and hands on in order', async () => {
    const { threads, start, finish } = standIns()
    const pool = openPool<Squaring>(start, { workers: 2 })
    const done = [3, 4, 5].map((part) => pool.ask(part))
    expect(threads.map(({ parts }) => parts)).toEqual([[3], [4]])
    finish(1)
    expect(threads.map(({ parts }) => parts)).toEqual([[3], [4, 5]])
    finish(0)
    finish(1)
    expect(await Promise.all(done)).toEqual([9, 16, 25])
    pool.end()
    expect(threads.every(({ ended }) => ended)).toBe(true)
  })

  it('stopped, does no part more: what waits is never begun, and what was done stays', async () => {
    const { threads, start, finish } = standIns()
    const stop = new AbortController()
    const pool = openPool<Squaring>(start, { workers: 2, signal: stop.signal })
    const result = doneInPool<Squaring, readonly (number | undefined)[]>(pool, function* (): Squares {
      return yield { parts: [1, 2, 3, 4, 5, 6], doing: 'squares', from: 0, to: 1 }
    })
    finish(0)
    finish(1)
    stop.abort()
    const begun = threads.map(({ parts }) => parts.length)
    // what ends late is not heard
    finish(0)
    expect(await result).toEqual([1, 4, undefined, undefined, undefined, undefined])
    expect(threads.map(({ parts }) => parts.length)).toEqual(begun)
    expect(threads.every(({ ended }) => ended)).toBe(true)
    await expect(pool.ask(7)).rejects.toBeInstanceOf(Cancelled)
  })

  it('gives a part that was lost to another worker, and tells where that does not help', async () => {
    const { threads, start, finish } = standIns()
    const pool = openPool<Squaring>(start, { workers: 1 })
    const done = pool.ask(6)
    threads[0]!.heard.lost('killed')
    finish(1)
    expect(await done).toBe(36)
    const never = pool.ask(7)
    for (const index of [1, 2, 3]) threads[index]!.heard.lost('killed')
    await expect(never).rejects.toBeInstanceOf(ComputeError)
  })

  it('comes to the same however many workers there are', async () => {
    const sums = [1, 2, 5].map((workers) => {
      const pool = openPool<Squaring>(
        ({ said }) => {
          const answer = answering(
            () => () => (part) => (part as number) ** 2,
            null,
            said,
            () => 0,
          )
          return { send: (part) => void answer(part), end: () => undefined }
        },
        { workers },
      )
      return doneInPool<Squaring, readonly (number | undefined)[]>(pool, function* (): Squares {
        const first = yield { parts: [1, 2, 3, 4], doing: 'squares', from: 0, to: 0.5 }
        const second = yield { parts: first.map((one) => one ?? 0), doing: 'squares of them', from: 0.5, to: 1 }
        return second
      })
    })
    expect(await Promise.all(sums)).toEqual([1, 2, 5].map(() => [1, 16, 81, 256]))
  })
})

describe('workers of the page', () => {
  it('are as many as the machine runs threads, at least one, at most eight', () => {
    expect([0, Number.NaN, 1, 2, 6, 64].map(partsAtOnce)).toEqual([1, 1, 1, 2, 6, 8])
  })
})
