import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { computeSamples, prepareSpread } from '../../src/core/deciding/spread-samples.ts'
import { Cancelled, ComputeError } from '../../src/core/errors.ts'
import type { Plan } from '../../src/core/plan/schema.ts'
import { samplesFromPool } from '../../src/main/spread/pool.ts'

const file = join(import.meta.dirname, '..', '..', 'out', 'main', 'spread-worker.js')

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

describe('pool of workers', () => {
  it('computes what one thread does, to the last bit, and tells how far it is', async () => {
    const task = prepareSpread(plan, ask)
    const shares: number[] = []
    const report = (share: number): void => {
      shares.push(share)
    }
    const samples = await samplesFromPool(plan, ask, task.columns.width, { file, workers: 3, report })
    expect(samples).toEqual(computeSamples(task, 0, ask.runs))
    expect(shares).toEqual([...shares].sort((a, b) => a - b))
    expect(shares.at(-1)).toBe(1)
  })

  it('ends its workers when it is cancelled', async () => {
    const cancel = new AbortController()
    const { width } = prepareSpread(plan, ask).columns
    const report = (): void => cancel.abort()
    const running = samplesFromPool(plan, { ...ask, runs: 5000 }, width, {
      file,
      workers: 2,
      report,
      signal: cancel.signal,
    })
    await expect(running).rejects.toBeInstanceOf(Cancelled)
    await expect(samplesFromPool(plan, ask, width, { file, signal: cancel.signal })).rejects.toBeInstanceOf(Cancelled)
  })

  it('hands on why a run could not be finished', async () => {
    // Heat without end: a burner under a sealed pot.
    const endless: Plan = {
      ...plan,
      piece: { shape: { kind: 'stirred', volume_L: 1 }, fill: [{ material: 'egg-custard', start_C: 20 }] },
      stages: [{ name: 'Burn', in: { air_C: 20, h_W_m2K: 5 }, power_W: 1e6, until: { after_h: 5 } }],
      targets: [],
    }
    await expect(samplesFromPool(endless, ask, 1, { file, workers: 1 })).rejects.toBeInstanceOf(ComputeError)
  })
})
