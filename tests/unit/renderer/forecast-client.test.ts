import { beforeEach, describe, expect, test, vi } from 'vitest'

import type { Forecast, LikelyCourse } from '../../../src/core/forecast-types.ts'
import type { Plan } from '../../../src/core/plan/schema/plan.ts'
import { type ForecastWorker, forecastClient, useForecast } from '../../../src/renderer/forecast-client.ts'
import type { ForecastAsk, ForecastReply, PlanAsk, WarmAsk } from '../../../src/renderer/forecast-protocol.ts'
import { forecastWord, staleSince } from '../../../src/renderer/forecast-word.ts'
import { usePlan } from '../../../src/renderer/plan-store.ts'
import { bar } from './plans.ts'

/** A worker that answers when the test says so. */
class StandIn implements ForecastWorker {
  onmessage: ForecastWorker['onmessage'] = null
  onerror: ForecastWorker['onerror'] = null
  readonly asks: PlanAsk[] = []
  readonly warmed: WarmAsk[] = []
  ended = false
  postMessage(ask: ForecastAsk): void {
    if (ask.kind === 'warm') this.warmed.push(ask)
    else this.asks.push(ask)
  }
  terminate(): void {
    this.ended = true
  }
  get last(): PlanAsk {
    const ask = this.asks.at(-1)
    if (ask === undefined) throw new Error('nothing was asked')
    return ask
  }
  answer(reply: ForecastReply): void {
    this.onmessage?.({ data: reply } as MessageEvent<ForecastReply>)
  }
  done(title: string): void {
    const forecast = { title, model: { fidelity: this.last.fidelity } } as Forecast
    this.answer({ kind: 'done', id: this.last.id, forecast })
  }
}

const course: LikelyCourse = { times_h: [], curves: {}, stages: [], danger: { low_C: 5, high_C: 60 } }
const other: Plan = { ...bar, title: 'Other' }
const third: Plan = { ...bar, title: 'Third' }

function begin(shared: boolean) {
  const workers: StandIn[] = []
  const wanted = shared ? new SharedArrayBuffer(4) : null
  const client = forecastClient(() => {
    const worker = new StandIn()
    workers.push(worker)
    return worker
  }, wanted)
  const worker = (): StandIn => {
    const last = workers.at(-1)
    if (last === undefined) throw new Error('no worker')
    return last
  }
  return { client, workers, worker, flag: wanted === null ? null : new Int32Array(wanted) }
}

describe('the forecast client', () => {
  beforeEach(() => {
    useForecast.setState(useForecast.getInitialState(), true)
    usePlan.getState().close()
  })

  test('quick first, then the asked fidelity; the forecast belongs to its plan', () => {
    const { client, worker } = begin(true)
    client.ask(bar)
    expect(worker().last.fidelity).toBe('quick')
    worker().done('one')
    expect(useForecast.getState().made).toBe(bar)
    expect(useForecast.getState().running?.fidelity).toBe('standard')
    worker().done('two')
    expect(useForecast.getState()).toMatchObject({ forecast: { title: 'two' }, running: null })
    expect(worker().asks).toHaveLength(2)
  })

  test('a quick forecast takes the bands of the one before along, never the last one, nor the first of a plan', () => {
    const { client, worker } = begin(true)
    const carries = () => worker().asks.map((ask) => ask.carries)
    // fine always has a quick forerunner
    client.ask({ ...bar, fidelity: 'fine' })
    worker().done('one')
    worker().done('two')
    client.ask({ ...other, fidelity: 'fine' })
    worker().done('three')
    worker().done('four')
    expect(carries()).toEqual([false, false, true, false])
    client.forget()
    client.ask({ ...third, fidelity: 'fine' })
    expect(carries().at(-1)).toBe(false)
  })

  test('a quick forecast is drawn before the asked fidelity runs; a newer plan meanwhile needs no stop', () => {
    vi.useFakeTimers()
    const worker = new StandIn()
    const client = forecastClient(() => worker, new SharedArrayBuffer(4), 150)
    client.ask(bar)
    worker.done('one')
    expect(worker.asks).toHaveLength(1)
    expect(useForecast.getState().running?.fidelity).toBe('standard')
    client.ask(other)
    expect(worker.asks.map(({ fidelity }) => fidelity)).toEqual(['quick', 'quick'])
    worker.done('two')
    client.cancel()
    vi.advanceTimersByTime(200)
    expect(worker.asks).toHaveLength(2)
    expect(useForecast.getState()).toMatchObject({ running: null, cancelled: true })
    client.ask(third)
    worker.done('three')
    vi.advanceTimersByTime(200)
    expect(worker.asks.map(({ fidelity }) => fidelity)).toEqual(['quick', 'quick', 'quick', 'standard'])
    worker.done('four')
    expect(useForecast.getState()).toMatchObject({ forecast: { title: 'four' }, running: null })
    vi.useRealTimers()
  })

  test('before the first forecast the likely course is there, and nothing that tells a moment; later ones come whole', () => {
    const { client, worker } = begin(true)
    client.ask(bar)
    expect(worker().last.early).toBe(true)
    worker().answer({ kind: 'likely', id: worker().last.id, course })
    expect(useForecast.getState()).toMatchObject({ likely: { course, plan: bar }, forecast: null, made: null })
    expect(forecastWord(useForecast.getState(), usePlan.getState(), 0, false).word).toBe('Computing')
    worker().done('one')
    expect(useForecast.getState()).toMatchObject({ likely: null, forecast: { title: 'one' } })
    worker().done('two')
    client.ask(other)
    expect(worker().asks.map(({ early }) => early)).toEqual([true, false, false])
  })

  test('a likely course stays where its bands are stopped, and belongs to its plan', () => {
    const { client, worker } = begin(true)
    client.ask(bar)
    const { id } = worker().last
    worker().answer({ kind: 'likely', id, course })
    client.cancel()
    expect(useForecast.getState()).toMatchObject({ likely: { plan: bar }, running: null, cancelled: true })
    client.forget()
    worker().answer({ kind: 'likely', id, course })
    expect(useForecast.getState().likely).toBe(null)
  })

  test('the worker gets ready before a plan is there, is free as soon as one is, and is ready once it has computed', () => {
    const { client, worker, workers, flag } = begin(true)
    client.warm([other])
    client.warm([other, third])
    expect(worker().warmed.map(({ plans }) => plans.length)).toEqual([1, 2])
    expect(worker().warmed.at(-1)?.id).toBe(flag?.[0])
    expect(useForecast.getState().running).toBe(null)
    client.ask(bar)
    expect(flag?.[0]).toBe(worker().last.id)
    client.warm([third])
    worker().done('one')
    worker().done('two')
    client.warm([third])
    expect(worker().warmed).toHaveLength(2)
    expect(workers).toHaveLength(1)
  })

  test('without shared memory getting ready keeps nobody waiting: the worker is started, no more', () => {
    const { client, worker, workers } = begin(false)
    client.warm([other])
    expect(workers).toHaveLength(1)
    expect(worker().warmed).toHaveLength(0)
    client.ask(bar)
    expect(workers).toHaveLength(1)
  })

  test('a plan that asks for quick is computed once', () => {
    const { client, worker } = begin(true)
    client.ask({ ...bar, fidelity: 'quick' })
    worker().done('one')
    expect(worker().asks).toHaveLength(1)
    expect(useForecast.getState().running).toBe(null)
  })

  test('one run alive: of many plans asked during a quick run only the newest follows', () => {
    const { client, worker } = begin(true)
    client.ask(bar)
    client.ask(other)
    client.ask(third)
    expect(worker().asks).toHaveLength(1)
    worker().done('one')
    expect(worker().asks.map(({ plan }) => plan.title)).toEqual(['Quince bar', 'Third'])
  })

  test('a long run is stopped by the flag for a newer plan, and its late answer is dropped', () => {
    const { client, worker, flag, workers } = begin(true)
    client.ask(bar)
    worker().done('quick')
    const old = worker().last.id
    client.ask(other)
    expect(flag?.[0]).not.toBe(old)
    expect(workers).toHaveLength(1)
    worker().answer({ kind: 'done', id: old, forecast: { title: 'late' } as Forecast })
    expect(useForecast.getState().forecast?.title).toBe('quick')
    expect(worker().last.plan).toBe(other)
  })

  test('without shared memory the worker is ended and another one started', () => {
    const { client, worker, workers } = begin(false)
    client.ask(bar)
    worker().done('quick')
    client.ask(other)
    expect(workers.map(({ ended }) => ended)).toEqual([true, false])
    expect(worker().last.plan).toBe(other)
  })

  test('faults come as data and the last good forecast stays', () => {
    const { client, worker } = begin(true)
    client.ask({ ...bar, fidelity: 'quick' })
    worker().done('good')
    client.ask({ ...other, fidelity: 'quick' })
    worker().answer({ kind: 'faults', id: worker().last.id, faults: [{ path: 'piece', problem: 'p', remedy: 'r' }] })
    expect(useForecast.getState()).toMatchObject({
      forecast: { title: 'good' },
      faults: [{ path: 'piece' }],
      running: null,
    })
  })

  test('faults of a plan that is no longer wanted are not shown', () => {
    const { client, worker } = begin(true)
    client.ask(bar)
    client.ask(other)
    worker().answer({ kind: 'faults', id: worker().last.id, faults: [{ path: 'piece', problem: 'p', remedy: 'r' }] })
    expect(useForecast.getState().faults).toEqual([])
    expect(worker().last.plan).toBe(other)
  })

  test('cancel keeps what there was and says so; a worker that dies is reported', () => {
    const { client, worker } = begin(true)
    client.ask(bar)
    worker().done('quick')
    client.cancel()
    expect(useForecast.getState()).toMatchObject({ forecast: { title: 'quick' }, cancelled: true, running: null })
    client.ask(bar)
    worker().onerror?.({ message: 'broken' } as ErrorEvent)
    expect(useForecast.getState().failure?.reason).toBe('broken')
  })
})

describe('what the header says', () => {
  beforeEach(() => {
    useForecast.setState(useForecast.getInitialState(), true)
    usePlan.getState().begin(bar, null)
  })
  const word = (long = false, faults = 0) => forecastWord(useForecast.getState(), usePlan.getState(), faults, long).word

  test('up to date, from before the last change, computing after a second, stopped', () => {
    const forecast = { title: 'x' } as Forecast
    useForecast.setState({ forecast, made: bar })
    expect(word()).toBe('Up to date')
    usePlan.getState().edit('thickness', () => other)
    expect(word()).toBe('From before your last change')
    expect(staleSince(useForecast.getState(), usePlan.getState())).toBe('thickness')
    useForecast.setState({ running: { plan: other, fidelity: 'standard', share: 0.2, doing: 'Freezer' } })
    expect([word(false), word(true)]).toEqual(['Up to date', 'Computing'])
    useForecast.setState({ running: null, failure: { reason: 'r', stage: 'Freeze', at_h: 31 } })
    expect(word()).toBe('Stopped in Freeze at 31 h')
  })

  test('a field that can’t be taken makes the forecast one from before', () => {
    useForecast.setState({ forecast: { title: 'x' } as Forecast, made: bar })
    usePlan.getState().refuse('piece.fill[0].thickness_mm', true)
    expect(word()).toBe('From before your last change')
    usePlan.getState().refuse('piece.fill[0].thickness_mm', false)
    expect(word()).toBe('Up to date')
    expect(word(false, 2)).toBe('From before your last change')
  })
})
