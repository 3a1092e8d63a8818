import { describe, expect, it } from 'vitest'
import { latinHypercube, plainDraws } from '../../src/core/deciding/latin-hypercube.ts'
import { withSampledBands } from '../../src/core/deciding/sampled-bands.ts'
import { summariseSpread } from '../../src/core/deciding/spread.ts'
import { computeSamples, prepareSpread } from '../../src/core/deciding/spread-samples.ts'
import { Cancelled } from '../../src/core/errors.ts'
import { forecast } from '../../src/core/forecast.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { curveAt } from '../../src/core/sheet/checks.ts'

const plan: Plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Almond cream, a hand high',
  startsAt: '2027-03-12T16:00',
  rules: ['fda-food-code-2022'],
  fidelity: 'quick',
  materials: { cream: { fixed: { k_W_mK: 0.48, rho_kg_m3: 1050, c_J_kgK: 3500 } } },
  piece: { shape: { kind: 'sheet', area_m2: 0.2 }, fill: [{ material: 'cream', thickness_mm: 90, start_C: 75 }] },
  stages: [{ name: 'Chill', in: { air_C: 3, h_W_m2K: 12 }, until: { after_h: 30 } }],
  targets: [{ kind: 'cooled', core_C: 10, by: '2027-03-13T08:00' }],
}

const ask = { runs: 200, seed: 1 }
const task = prepareSpread(plan, ask)
const samples = computeSamples(task, 0, ask.runs)

describe('spread', () => {
  it('gives the same numbers however the runs are divided', () => {
    const { width } = task.columns
    const joined = new Float64Array(samples.length)
    // Each part by a worker of its own, which makes the plan ready itself.
    for (const [from, to] of [
      [120, 200],
      [0, 37],
      [37, 120],
    ] as const)
      joined.set(computeSamples(prepareSpread(plan, ask), from, to), from * width)
    expect(joined).toEqual(samples)
  })

  it('stops when asked to', () => {
    expect(() => computeSamples(task, 0, 5, { stopped: () => true })).toThrow(Cancelled)
  })

  it('holds the truth of nine in ten pieces drawn from the stated uncertainty', () => {
    // 200 true pieces by plain chance with another seed: their ready time against the 5 to 95 % band. The share is
    // binomial: with 0.9 it lies within 0.85 and 0.95 in 98 % of such tests.
    const spread = summariseSpread(task, ask, forecast(plan), samples)
    const { p5_h, p95_h } = spread.answers[0]!
    const truth = prepareSpread(plan, { runs: 200, seed: 2027 }, {}, plainDraws)
    const rows = computeSamples(truth, 0, 200)
    const ready = Array.from({ length: 200 }, (_, run) => rows[run * truth.columns.width]!)
    const inside = ready.filter((at) => at >= p5_h! && at <= p95_h!).length
    console.log(`5 to 95 % band ${p5_h!.toFixed(2)} to ${p95_h!.toFixed(2)} h holds ${inside} of 200 true pieces`)
    expect(inside / 200).toBeGreaterThanOrEqual(0.85)
    expect(inside / 200).toBeLessThanOrEqual(0.95)
  })

  it('gives a forecast its bands: of curves, answers and rule steps, told in their sentences too', () => {
    const made = forecast(plan)
    const spread = summariseSpread(task, ask, made, samples)
    const shown = withSampledBands(made, spread)
    expect(shown.model).toMatchObject({ bands: 'sampled', sampled_runs: 200 })
    const [answer] = shown.answers
    expect(answer).toMatchObject({ early_h: spread.answers[0]!.p5_h, late_h: spread.answers[0]!.p95_h })
    expect(answer!.why.values).toMatchObject({ at_early_h: answer!.early_h, at_late_h: answer!.late_h })
    expect(shown.safety[0]!.steps[0]).toMatchObject({ early_h: spread.rules[0]!.steps[0]!.p5_h })
    // at a moment of the spread the band is the sampled one
    const middle = spread.times_h.findIndex((at_h) => at_h >= 8)
    const { core } = shown.bands
    const at_h = spread.times_h[middle]!
    // straight lines between the moments of the forecast cut a little off the sampled ones
    expect(Math.abs(curveAt(shown.times_h, core!.low, at_h)! - spread.curves.core!.p5[middle]!)).toBeLessThan(0.3)
    expect(Math.abs(curveAt(shown.times_h, core!.high, at_h)! - spread.curves.core!.p95[middle]!)).toBeLessThan(0.3)
    // the likely course lies within throughout
    for (const [i, likely] of made.curves.core!.entries()) {
      expect(core!.low[i]!).toBeLessThanOrEqual(likely!)
      expect(core!.high[i]!).toBeGreaterThanOrEqual(likely!)
    }
  })

  it('is as wide as the law of a well-mixed slab says where one input moves alone', () => {
    // Time to a temperature of a slab goes with the square of its thickness at a given Biot number; with film and
    // conductivity as they are, a thickness 1 % greater lengthens it by between 1 and 2 %. By the series, Bi = 1.1:
    // λ² from λ tan λ = Bi; t ∝ L²/λ²(Bi).
    const only = prepareSpread(plan, { runs: 1, seed: 1 })
    const index = only.inputs.findIndex(({ kind }) => kind === 'thickness')
    const factor = 1.05
    const draw = new Float64Array(only.inputs.length)
    draw[index] = Math.log(factor) / only.inputs[index]!.sigma
    const found = only.row(draw, {})[0]! / only.nominal[0]!
    const hours = (L: number): number => {
      const Bi = (12 * L) / 0.48
      let [low, high] = [0, Math.PI / 2]
      for (let i = 0; i < 60; i++) {
        const middle = (low + high) / 2
        if (middle * Math.tan(middle) < Bi) low = middle
        else high = middle
      }
      const first = (4 * Math.sin(low)) / (2 * low + Math.sin(2 * low))
      return (Math.log((first * (75 - 3)) / (10 - 3)) * L ** 2) / low ** 2
    }
    expect(found).toBeCloseTo(hours(0.045 * factor) / hours(0.045), 2)
  })

  it('says what drives the time: most of all the film, and never what is not there', () => {
    const spread = summariseSpread(task, ask, forecast(plan), samples)
    const { drivers, R2 } = spread.answers[0]!.drivers!
    expect(spread.inputs[drivers[0]!.input]!.kind).toBe('film')
    expect(drivers[0]!.coefficient).toBeLessThan(-0.5)
    expect(R2).toBeGreaterThan(0.9)
    expect(spread.inputs.some(({ kind }) => kind === 'power' || kind === 'setting laws')).toBe(false)
  })

  it('has its medians beside the likely course, and curves that lie in order', () => {
    const result = forecast(plan)
    const spread = summariseSpread(task, ask, result, samples)
    const { p5_h, p50_h, p95_h, likely_h, met } = spread.answers[0]!
    expect(Math.abs(p50_h! / likely_h! - 1)).toBeLessThan(0.03)
    expect(p5_h!).toBeLessThan(p50_h!)
    expect(p50_h!).toBeLessThan(p95_h!)
    expect(met).toBeGreaterThan(0)
    for (const { p5, p50, p95 } of Object.values(spread.curves))
      for (const [i, middle] of p50.entries()) {
        expect(p5[i]!).toBeLessThanOrEqual(middle!)
        expect(middle!).toBeLessThanOrEqual(p95[i]!)
      }
  })

  it('gives another sample with another seed, and nearly the same band', () => {
    const other = latinHypercube(200, task.inputs.length, 2)
    expect(other).not.toEqual(task.draws)
    const again = { runs: 200, seed: 2 }
    const second = prepareSpread(plan, again)
    const result = forecast(plan)
    const one = summariseSpread(task, ask, result, samples).answers[0]!
    const two = summariseSpread(second, again, result, computeSamples(second, 0, 200)).answers[0]!
    const width = one.p95_h! - one.p5_h!
    expect(Math.abs(two.p5_h! - one.p5_h!)).toBeLessThan(0.1 * width)
    expect(Math.abs(two.p95_h! - one.p95_h!)).toBeLessThan(0.1 * width)
  })
})
