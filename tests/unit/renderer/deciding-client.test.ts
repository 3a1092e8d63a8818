import { describe, expect, test, vi } from 'vitest'
import type { Help } from '../../../src/core/choosing/help.ts'
import { Cancelled, ComputeError, PlanError } from '../../../src/core/errors.ts'
import { type DecidingWorker, decide } from '../../../src/renderer/deciding-client.ts'
import { type DecidingAsk, type DecidingReply, STOP } from '../../../src/renderer/deciding-protocol.ts'
import { bar } from './plans.ts'

/** A worker that answers when the test says so. */
class StandIn implements DecidingWorker {
  onmessage: DecidingWorker['onmessage'] = null
  onerror: DecidingWorker['onerror'] = null
  readonly asks: (DecidingAsk | typeof STOP)[] = []
  ended = false
  postMessage(ask: DecidingAsk | typeof STOP): void {
    this.asks.push(ask)
  }
  terminate(): void {
    this.ended = true
  }
  answer(reply: DecidingReply): void {
    this.onmessage?.({ data: reply } as MessageEvent<DecidingReply>)
  }
}

const ask = { plan: bar, question: { of: 'target', index: 0 } } as const

function begin(signal?: AbortSignal) {
  const worker = new StandIn()
  const heard: number[] = []
  const options = { report: (share: number) => heard.push(share), ...(signal === undefined ? {} : { signal }) }
  const result = decide('help', ask, options, () => worker)
  return { worker, heard, result }
}

describe('a call away from the page', () => {
  test('hands over what is asked, tells of progress, gives the reply and ends its worker', async () => {
    const { worker, heard, result } = begin()
    expect(worker.asks).toEqual([{ call: 'help', ask }])
    worker.answer({ kind: 'progress', share: 0.4, doing: 'fan' })
    const reply = { ranked: [] } as unknown as Help
    worker.answer({ kind: 'done', reply })
    expect(await result).toBe(reply)
    expect(heard).toEqual([0.4])
    expect(worker.ended).toBe(true)
  })

  test('stopped, it gives what its worker has by then', async () => {
    const stop = new AbortController()
    const { worker, result } = begin(stop.signal)
    stop.abort()
    expect(worker.asks.at(-1)).toBe(STOP)
    const reply = { ranked: [], unfinished: true } as unknown as Help
    worker.answer({ kind: 'done', reply })
    expect(await result).toBe(reply)
    expect(worker.ended).toBe(true)
  })

  test('stopped with nothing to tell it is cancelled, and so is one that does not answer: it is ended', async () => {
    const stop = new AbortController()
    const one = begin(stop.signal)
    stop.abort()
    one.worker.answer({ kind: 'cancelled' })
    await expect(one.result).rejects.toThrow(Cancelled)
    vi.useFakeTimers()
    const again = new AbortController()
    const deaf = begin(again.signal)
    again.abort()
    expect(deaf.worker.ended).toBe(false)
    vi.advanceTimersByTime(100)
    expect(deaf.worker.ended).toBe(true)
    vi.useRealTimers()
    await expect(deaf.result).rejects.toThrow(Cancelled)
    const never = new StandIn()
    await expect(decide('help', ask, { signal: stop.signal }, () => never)).rejects.toThrow(Cancelled)
    expect(never.asks).toEqual([])
  })

  test('tells faults of the plan from a computation that failed', async () => {
    const one = begin()
    one.worker.answer({ kind: 'faults', faults: [{ path: 'readings', problem: 'none', remedy: 'give one' }] })
    await expect(one.result).rejects.toThrow(PlanError)
    const other = begin()
    other.worker.answer({ kind: 'failed', failure: { reason: 'no end', stage: 'Chill', at_h: 3 } })
    await expect(other.result).rejects.toThrow(ComputeError)
    expect(other.worker.ended).toBe(true)
  })
})
