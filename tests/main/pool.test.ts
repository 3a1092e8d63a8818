import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { describe, expect, it } from 'vitest'
import { changes } from '../../src/core/choosing/changes/registry.ts'
import { helpInParts, whatWouldHelp } from '../../src/core/choosing/help.ts'
import { findLimit, limitInParts } from '../../src/core/choosing/limit.ts'
import { oneNumber } from '../../src/core/choosing/one-number.ts'
import { questionOf } from '../../src/core/choosing/question.ts'
import { computeSamples, prepareSpread, type SpreadAsk } from '../../src/core/deciding/spread-samples.ts'
import { Cancelled, ComputeError, PlanError } from '../../src/core/errors.ts'
import { fitInParts, fitPlan, prepareFit } from '../../src/core/fitting/fit.ts'
import { forecast } from '../../src/core/forecast.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import type { Report } from '../../src/core/pooled/done-in-pool.ts'
import { type Sampled, samplesFromPool } from '../../src/core/pooled/sampled.ts'
import { doneOnThreads, openThreads, type ThreadOptions } from '../../src/main/pool/pool.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

const file = join(import.meta.dirname, '..', '..', 'out', 'main', 'pool-worker.js')

const plan: Plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Custard, two hands high',
  startsAt: '2027-03-12T16:00',
  fidelity: 'quick',
  piece: {
    shape: { kind: 'sheet', area_m2: 0.2 },
    fill: [{ material: 'egg-custard', thickness_mm: 120, start_C: 70 }],
  },
  stages: [{ name: 'Freeze', in: 'blast-freezer', until: { after_h: 30 } }],
  targets: [{ kind: 'frozen', core_C: -10 }],
}
const ask = { runs: 40, seed: 5 }
/** Heat without end: a burner under a sealed pot. */
const endless: Plan = {
  ...plan,
  piece: { shape: { kind: 'stirred', volume_L: 1 }, fill: [{ material: 'egg-custard', start_C: 20 }] },
  stages: [{ name: 'Burn', in: { air_C: 20, h_W_m2K: 5 }, power_W: 1e6, until: { after_h: 5 } }],
  targets: [],
}

/** All runs of a spread on threads. */
const sampled = (
  of: Plan,
  asked: SpreadAsk,
  { report, ...options }: ThreadOptions & { readonly report?: Report },
): Promise<Sampled> => samplesFromPool(openThreads('spread', { plan: of, ask: asked }, options), asked, report)

const folder = temporaryFolder()

/** A worker that does something else before it becomes the real one. */
async function workerThat(first: string): Promise<string> {
  const path = join(folder.path, 'worker.mjs')
  const flag = JSON.stringify(join(folder.path, 'ended-once'))
  const lines = [
    `import { existsSync, writeFileSync } from 'node:fs'`,
    `const flag = ${flag}`,
    first,
    `await import(${JSON.stringify(pathToFileURL(file).href)})`,
  ]
  await writeFile(path, lines.join('\n'))
  return path
}

describe('a worker that ends', () => {
  it('is replaced, and its part is done again: the same numbers', async () => {
    const dying = await workerThat(`if (!existsSync(flag)) { writeFileSync(flag, ''); process.exit(9) }`)
    const { samples } = await sampled(plan, ask, { file: dying, workers: 2 })
    expect(samples).toEqual(computeSamples(prepareSpread(plan, ask), 0, ask.runs))
  })

  it('every time is told, not waited for', async () => {
    const dead = await workerThat('process.exit(9)')
    const running = sampled(plan, ask, { file: dead, workers: 2 })
    await expect(running).rejects.toThrow('a part of the computation ended, stopped from outside')
    await expect(running).rejects.toBeInstanceOf(ComputeError)
  })

  it('for want of memory is told as that', async () => {
    const full = await workerThat(`throw Object.assign(new Error('heap'), { code: 'ERR_WORKER_OUT_OF_MEMORY' })`)
    const running = sampled(plan, ask, { file: full, workers: 1 })
    await expect(running).rejects.toThrow('a part of the computation ended, out of memory')
  })
})

describe('pool of workers', () => {
  const how = { measured: undefined, fidelity: undefined }
  const asked = (one: Plan) => ({ file: 'a.thickset', text: JSON.stringify(one) })

  it('does more parts than it has workers, each answered for itself', async () => {
    const pool = openThreads('forecasts', { how, json: false }, { file, workers: 2 })
    const titles = ['one', 'two', 'three', 'four', 'five']
    const told = await Promise.all(titles.map((title) => pool.ask(asked({ ...plan, title }))))
    pool.end()
    expect(told.map(({ lines }) => lines[0])).toEqual(titles)
    await expect(pool.ask(asked(plan))).rejects.toBeInstanceOf(Cancelled)
  })

  it('gives a fault and a failure to the part that had it, and goes on', async () => {
    const pool = openThreads('forecasts', { how, json: false }, { file, workers: 1 })
    const wrong = pool.ask({ file: 'b.thickset', text: '{' })
    const failed = pool.ask(asked(endless))
    const good = pool.ask(asked(plan))
    await expect(wrong).rejects.toBeInstanceOf(PlanError)
    await expect(failed).rejects.toMatchObject({ name: 'ComputeError', stage: 'Burn' })
    expect((await good).lines[0]).toBe(plan.title)
    pool.end()
  })
})

describe('searches on the pool', () => {
  // Of one mass that neither freezes nor holds fat: what is compared is the dividing, not the mass.
  const asked: Plan = {
    ...plan,
    materials: { cream: { fixed: { k_W_mK: 0.48, rho_kg_m3: 1050, c_J_kgK: 3500 } } },
    piece: { ...plan.piece, fill: [{ material: 'cream', thickness_mm: 120, start_C: 70 }] },
    targets: [{ kind: 'cooled', core_C: 5, by: '2027-03-13T04:00' }],
  }
  const question = questionOf(asked, {})
  const thickness = oneNumber(asked, 'fill[0].thickness_mm')
  const range = { end: 'greatest', from: 40, to: 200 } as const

  it.each([1, 3])('come to the same with %i workers as without any', async (workers) => {
    const shares: number[] = []
    const report = (share: number): void => {
      shares.push(share)
    }
    const few = { closely: 2, changes: changes.slice(0, 6) }
    const help = await doneOnThreads('looks', null, (atOnce) => helpInParts(asked, question, few, atOnce), {
      file,
      workers,
      report,
    })
    expect(help).toEqual(whatWouldHelp(asked, question, few))
    expect(shares).toEqual([...shares].sort((a, b) => a - b))
    const limit = await doneOnThreads('looks', null, (atOnce) => limitInParts(thickness, question, range, atOnce), {
      file,
      workers,
    })
    expect(limit).toEqual(findLimit(thickness, question, range))
  })

  it('tell what they have when they are stopped', async () => {
    const cancel = new AbortController()
    const report = (_: number, doing: string): void => {
      if (doing === 'the best of them closely') cancel.abort()
    }
    const help = await doneOnThreads('looks', null, (atOnce) => helpInParts(asked, question, {}, atOnce), {
      file,
      workers: 2,
      report,
      signal: cancel.signal,
    })
    expect(help.unfinished).toBe(true)
    expect(help.ranked.length).toBeGreaterThan(5)
    expect(help.ranked.some(({ sure }) => sure === undefined)).toBe(true)
    expect(help).not.toHaveProperty('together')
  })
})

describe('a fit on the pool', () => {
  const chilled: Plan = {
    ...plan,
    piece: {
      shape: { kind: 'sheet', area_m2: 0.2 },
      fill: [{ material: 'egg-custard', thickness_mm: 50, start_C: 70 }],
    },
    stages: [{ name: 'Chill', in: 'fridge-fan', until: { after_h: 8 } }],
    targets: [],
  }
  const readings = [55, 41, 33, 26, 21].map((C, hour) => ({ probe: 'core', at_h: hour + 1, C }))

  it('comes to what one thread comes to, and is cancelled whole', async () => {
    const task = prepareFit(chilled, readings)
    const alone = fitPlan(chilled, readings)
    const pooled = await doneOnThreads('fit', task.start, () => fitInParts(task), { file, workers: 2 })
    expect(pooled.fit).toEqual(alone.fit)
    expect(pooled.middle).toEqual(alone.middle)
    const cancel = new AbortController()
    const { signal } = cancel
    const report = (): void => cancel.abort()
    const stopped = doneOnThreads('fit', task.start, () => fitInParts(task), { file, workers: 2, signal, report })
    await expect(stopped).rejects.toBeInstanceOf(Cancelled)
  })
})

describe('a spread on the pool', () => {
  it('is what one thread computes, to the last bit, and tells how far it is', async () => {
    const task = prepareSpread(plan, ask)
    const shares: number[] = []
    const report = (share: number): void => {
      shares.push(share)
    }
    const found = await sampled(plan, ask, { file, workers: 3, report })
    expect(found.samples).toEqual(computeSamples(task, 0, ask.runs))
    expect(found.task.draws).toEqual(task.draws)
    expect(found.likely.answers).toEqual(forecast(plan).answers)
    expect(found.done).toEqual(Array.from({ length: ask.runs }, (_, run) => run))
    expect(shares).toEqual([...shares].sort((a, b) => a - b))
    expect(shares.at(-1)).toBe(1)
  })

  it('gives what was done when it is stopped, as the whole one has it', async () => {
    const cancel = new AbortController()
    const report = (share: number): void => {
      if (share > 0.08) cancel.abort()
    }
    const { done, samples, task } = await sampled(
      plan,
      { ...ask, runs: 1000 },
      {
        file,
        workers: 2,
        report,
        signal: cancel.signal,
      },
    )
    expect(done.length).toBeGreaterThan(20)
    expect(done.length).toBeLessThan(200)
    const alone = prepareSpread(plan, { ...ask, runs: 1000 })
    const { width } = task.columns
    for (const [place, run] of done.entries())
      expect(samples.subarray(place * width, (place + 1) * width)).toEqual(computeSamples(alone, run, run + 1))
    await expect(sampled(plan, ask, { file, signal: cancel.signal })).rejects.toBeInstanceOf(Cancelled)
  })

  it('hands on why a run could not be finished', async () => {
    await expect(sampled(endless, ask, { file, workers: 1 })).rejects.toBeInstanceOf(ComputeError)
  })
})
