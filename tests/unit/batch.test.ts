import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { fitBatch } from '../../src/core/batch.ts'
import { forecast } from '../../src/core/forecast.ts'
import { pieceNeeds } from '../../src/core/needs.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import type { Plan, PlanShape } from '../../src/core/plan/schema/plan.ts'

// Volumes of solids by the formulae of geometry; masses by them and the density.

const RHO = 800
const materials: Plan['materials'] = {
  mass: { fixed: { k_W_mK: 0.4, rho_kg_m3: RHO, c_J_kgK: 3000 } },
  // 4 kg put together of which a quarter boils off: 3 kg
  reduced: {
    recipe: [
      { ingredient: 'milk-whole', mass_kg: 3 },
      { ingredient: 'egg-whole', count: 20, unit: 'own', unit_g: 50 },
    ],
    water_loss_pct: 25,
  },
}
const planOf = (shape: PlanShape, fill: Plan['piece']['fill'], lining?: Plan['piece']['lining']): Plan => ({
  format: 'thickset-plan',
  version: 1,
  title: 'Batch',
  startsAt: '2027-03-12T16:00',
  fidelity: 'quick',
  materials,
  piece: { shape, fill, ...(lining === undefined ? {} : { lining }) },
  stages: [{ name: 'Bench', in: { air_C: 20, h_W_m2K: 8 }, until: { after_h: 1 } }],
})
const layer = (thickness_mm?: number, material = 'mass') => ({
  material,
  start_C: 20,
  ...(thickness_mm === undefined ? {} : { thickness_mm }),
})

describe('what a piece needs', () => {
  test('masses are those of the forecast, for every example', () => {
    for (const file of readdirSync('shared/examples')) {
      const plan: Plan = { ...readPlan(readFileSync(`shared/examples/${file}`, 'utf8')), fidelity: 'quick' }
      if (plan.stages.length > 2) continue
      const { layers } = forecast(plan).quantities
      for (const [index, need] of pieceNeeds(plan).layers.entries())
        expect(Math.abs(need.mass_kg / layers[index]!.mass_kg - 1), `${file} ${need.name}`).toBeLessThan(1e-9)
    }
  }, 60_000)

  test('ingredients by layer and in all, with the water that is lost and the pieces that are counted', () => {
    const block: PlanShape = { kind: 'block', width_mm: 300, length_mm: 400 }
    const plan = planOf(block, [layer(50, 'reduced'), layer(20), layer(30, 'reduced')])
    const { layers, ingredients, unknown, mass_kg } = pieceNeeds(plan)
    expect(layers[1]!.mass_kg).toBeCloseTo(0.3 * 0.4 * 0.02 * RHO, 9)
    expect(unknown).toEqual(['mass'])
    // 50 and 30 mm of the same; a quarter more than what stays must be put together: over 0.75
    const made = layers[0]!.mass_kg + layers[2]!.mass_kg
    expect(layers[0]!.mass_kg / layers[2]!.mass_kg).toBeCloseTo(5 / 3, 9)
    expect(layers[0]!.batch_kg! / layers[0]!.mass_kg).toBeCloseTo(4 / 3, 9)
    expect(ingredients.map(({ ingredient }) => ingredient)).toEqual(['milk-whole', 'egg-whole'])
    expect(ingredients[0]!.mass_kg).toBeCloseTo((3 / 3) * made, 9)
    expect(ingredients[1]!.mass_kg).toBeCloseTo((1 / 3) * made, 9)
    expect(ingredients[1]!.count).toBeCloseTo((20 / 3) * made, 9)
    expect(mass_kg).toBeCloseTo(made + 1.92, 9)
  })
})

describe('the thickness that a batch gives', () => {
  test('a block: mass over area and density', () => {
    const plan = planOf({ kind: 'block', width_mm: 300, length_mm: 400 }, [layer(50), layer(20)])
    expect(fitBatch(plan, 'fill[1]', 12).thickness).toBeCloseTo(12 / (0.12 * RHO), 7)
    expect(fitBatch(plan, 'fill[0]', 0.5).thickness).toBeCloseTo(0.5 / (0.12 * RHO), 7)
  })

  test('a recipe as it is written: what is lost on the way is no part of it', () => {
    const plan = planOf({ kind: 'block', width_mm: 300, length_mm: 400 }, [layer(50, 'reduced')])
    const fit = fitBatch(plan, 'fill[0]')
    expect(fit).toMatchObject({ batch_kg: 4, mass_kg: 3 })
    const rho = pieceNeeds(plan).layers[0]!.mass_kg / (0.12 * 0.05)
    expect(fit.thickness).toBeCloseTo(3 / (0.12 * rho), 7)
    expect(() => fitBatch(planOf({ kind: 'ball', diameter_mm: 200 }, [layer()]), 'fill[0]')).toThrow('no recipe')
  })

  test('a round and a ring: over the area of circles', () => {
    const round = planOf({ kind: 'round', diameter_mm: 240 }, [layer(50)])
    expect(fitBatch(round, 'fill[0]', 5).thickness).toBeCloseTo(5 / (Math.PI * 0.12 ** 2 * RHO), 7)
    const ring = planOf({ kind: 'ring', outer_mm: 240, inner_mm: 80 }, [layer(50)])
    expect(fitBatch(ring, 'fill[0]', 3).thickness).toBeCloseTo(3 / (Math.PI * (0.12 ** 2 - 0.04 ** 2) * RHO), 7)
  })

  test('the level in a half-round mould: segment of a circle, r² acos((r − h)/r) − (r − h) √(2rh − h²)', () => {
    const [r, length, h] = [0.15, 0.8, 0.09]
    const segment = r * r * Math.acos((r - h) / r) - (r - h) * Math.sqrt(2 * r * h - h * h)
    const shape: PlanShape = { kind: 'trough', radius_mm: 150, length_mm: 800 }
    for (const fill of [[layer(60)], [layer()]])
      expect(fitBatch(planOf(shape, fill), 'fill[0]', segment * length * RHO).thickness).toBeCloseTo(h, 6)
    // More than the mould holds: to the rim, the rest stays over.
    const half = (Math.PI / 2) * r * r * length * RHO
    const full = fitBatch(planOf(shape, [layer(60)]), 'fill[0]', half + 2)
    expect(full.thickness).toBeCloseTo(r, 6)
    expect(full.over_kg).toBeCloseTo(2, 4)
    // Less than the shape takes as a level of its own.
    expect(fitBatch(planOf(shape, [layer(60)]), 'fill[0]', 0.1).least).toBeCloseTo(0.1 * r, 6)
  })

  test('a bowl: cap of a ball, π h² (3r − h) / 3', () => {
    const plan = planOf({ kind: 'dome', radius_mm: 120, flat: 'up' }, [layer(60)])
    const [r, h] = [0.12, 0.08]
    expect(fitBatch(plan, 'fill[0]', ((Math.PI * h * h * (3 * r - h)) / 3) * RHO).thickness).toBeCloseTo(h, 6)
  })

  test('a lining of a ball: shell between two balls', () => {
    const plan = planOf({ kind: 'ball', diameter_mm: 200 }, [layer()], [layer(10)])
    const shell = (4 / 3) * Math.PI * (0.1 ** 3 - 0.08 ** 3) * RHO
    expect(fitBatch(plan, 'lining[0]', shell).thickness).toBeCloseTo(0.02, 6)
  })

  test('a filling that takes what is left has no thickness: it is filled, or something stays over', () => {
    const plan = planOf({ kind: 'ball', diameter_mm: 200 }, [layer()])
    const whole = (4 / 3) * Math.PI * 0.1 ** 3 * RHO
    expect(fitBatch(plan, 'fill[0]', whole + 1)).toMatchObject({ over_kg: expect.closeTo(1, 6) })
    expect(fitBatch(plan, 'fill[0]', 1)).toMatchObject({ asked_kg: expect.closeTo(whole, 6) })
    expect(fitBatch(plan, 'fill[0]', 1).thickness).toBeUndefined()
  })

  test('a layer that is poured later, within a lining', () => {
    const plan = planOf({ kind: 'round', diameter_mm: 240 }, [layer(50)], [layer(10)])
    plan.stages[0]!.start = [{ do: 'pour', ...layer(10) }] as never
    // The column between the linings: a round of 220 mm.
    const found = fitBatch(plan, 'stages[0].start[0]', Math.PI * 0.11 ** 2 * 0.03 * RHO)
    expect(found.asked_kg).toBeGreaterThan(0)
    expect(found.thickness).toBeCloseTo(0.03, 6)
  })
})
