import { describe, expect, test } from 'vitest'
import { roundBody } from '../../src/core/geometry/shapes/round.ts'
import type { Action, Stage } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import { getMaterial } from '../../src/core/materials/index.ts'
import type { Material } from '../../src/core/materials/material.ts'
import type { SetsBy } from '../../src/core/materials/sets-by.ts'
import { judgeCarried } from '../../src/core/outcomes/carried.ts'
import { air, hours, jobOf, stage } from './jobs.ts'

/* Loads by hand: density × 9.80665 m/s² × height. Strengths by the published figure that stands beside each check. */

const round = roundBody({ diameter: 0.24 })
const mass = (sets: readonly SetsBy[], rho = 1050): Material => ({
  ...fixedMaterial({ id: 'mass', title: 'Mass', k: 0.5, rho, c: 3500 }),
  sets,
})
const gelatin: SetsBy = { by: 'gelatin', gelatin_pct: 3, bloom: 200 }
const fridge = (h: number, start: readonly Action[] = []): Stage => ({ ...stage(round, air(10, 4), h), start })
const carried = (material: Material, stages: Stage[], thickness = 0.08) => {
  const job = jobOf(round, material, thickness, 60, stages)
  return judgeCarried(runJourney(job, { fidelity: 'quick' }), job)
}

test('agar of 0.8 % at 20 °C could stand 31 cm high, of 1 % 49 cm: 25 kPa at 1.5 %, square law, fails at 0.9 of its modulus, factor 2', () => {
  const end = (agar_pct: number) =>
    carried(mass([{ by: 'agar', agar_pct }]), [stage(round, air(25, 20), 60)]).find(
      ({ occasion }) => occasion === 'end',
    )!
  // Half a centimetre: figures of the table are rounded to centimetres.
  expect(Math.abs(end(0.8).standing_m! - 0.31)).toBeLessThan(0.005)
  expect(Math.abs(end(1).standing_m! - 0.49)).toBeLessThan(0.005)
  expect(end(0.8)).toMatchObject({ answer: 'carries', layer: 'fill[0]' })
  expect(end(0.8).load_Pa).toBeCloseTo(1050 * 9.80665 * 0.08, 3)
  // What the law of agar can't know is said with every answer.
  expect(end(0.8).notes.map(({ code }) => code)).toEqual(['carried-in-mould', 'setting-weak'])
})

describe('out of its mould', () => {
  const out = (h: number, gelatin_pct = 3) =>
    carried(mass([{ ...gelatin, gelatin_pct }]), [fridge(h), fridge(2, [{ do: 'unmould', title: 'out' }])]).find(
      ({ occasion }) => occasion === 'unmoulded',
    )!

  test('too early it gives way, with the weakest place deep inside; a day later it carries itself', () => {
    const early = out(4)
    expect(early).toMatchObject({ answer: 'gives way', at_h: 4 })
    expect(early.factor).toBeLessThan(1)
    const late = out(40, 5)
    expect(late.answer).toBe('carries')
    expect(late.factor).toBeGreaterThan(2)
    expect(late.low_standing_m!).toBeLessThan(late.standing_m!)
    expect(late.high_standing_m!).toBeGreaterThan(late.standing_m!)
  })

  test('where only the likely figures carry, it is a warning and no verdict', () => {
    // Gelatin ripens for a day: between the hours of the likely figures and those of the low ones, which take 1.6 times as long.
    const answers = [6, 10, 14, 18, 24, 40].map((h) => out(h).answer)
    expect(answers.indexOf('warning')).toBeGreaterThan(answers.lastIndexOf('gives way'))
    expect(answers.lastIndexOf('warning')).toBeLessThan(answers.indexOf('carries'))
    const found = out([6, 10, 14, 18, 24, 40][answers.indexOf('warning')]!)
    expect(found.standing_m!).toBeGreaterThan(0.08)
    expect(found.low_standing_m!).toBeLessThan(0.08)
  })
})

describe('what comes on it', () => {
  const heavy = fixedMaterial({ id: 'cake', title: 'Cake', k: 0.2, rho: 500, c: 2500 })
  const pour: Action = {
    do: 'pour',
    layer: { name: 'stages[1].start[0]', material: heavy, thickness: 0.04, start_C: 20 },
  }
  const loaded = (h: number) => carried(mass([gelatin]), [fridge(h), fridge(30, [pour])])

  test('after half an hour it sinks in, after a day the top is set', () => {
    const early = loaded(0.5).find(({ occasion }) => occasion === 'loaded')!
    expect(early).toMatchObject({ answer: 'gives way', why: { code: 'carried-skin-soft' } })
    expect(loaded(24).find(({ occasion }) => occasion === 'loaded')).toMatchObject({ answer: 'carries' })
  })

  test('the load at the end is its own weight and what lies on it', () => {
    const end = loaded(24).find(({ occasion }) => occasion === 'end')!
    expect(end.load_Pa).toBeCloseTo(9.80665 * (1050 * 0.08 + 500 * 0.04), 3)
  })
})

test('a whipped cream slumps, as a warning: 1 − 2t(1 − ln 2t), t the yield stress over density × g × height (Pashias et al. 1996)', () => {
  const cream = getMaterial('whipped-cream')
  const job = jobOf(round, cream, 0.1, 6, [fridge(2)])
  const [found] = judgeCarried(runJourney(job, { fidelity: 'quick' }), job)
  const t = (yield_Pa: number) => yield_Pa / (cream.density * 9.80665 * 0.1)
  const slump = (yield_Pa: number) => 100 * (1 - 2 * t(yield_Pa) * (1 - Math.log(2 * t(yield_Pa))))
  expect(found).toMatchObject({ answer: 'warning', why: { code: 'carried-slumps' } })
  expect(Number(found!.why.values.most_pct)).toBeCloseTo(slump(30), 6)
  expect(Number(found!.why.values.least_pct)).toBeCloseTo(slump(100), 6)
})

test('what sets by baking alone, and what is solid, is not judged', () => {
  expect(carried(getMaterial('sponge-crumb'), [fridge(hours(1) / 3600)])).toEqual([])
})
