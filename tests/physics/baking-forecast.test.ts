import { describe, expect, test } from 'vitest'
import { forecast } from '../../src/core/forecast.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { forecastDocument } from '../../src/core/words/document.ts'

/* A plan with a batter gets its baking without being asked for it. */

const plan = (piece: Plan['piece'], materials: Plan['materials'] = {}): Plan => ({
  format: 'thickset-plan',
  version: 1,
  title: 'Sponge',
  startsAt: '2027-03-12T06:00',
  fidelity: 'quick',
  materials,
  piece,
  stages: [
    { name: 'Bake', in: { like: 'oven-static', air_C: 180 }, until: { core_C: 94, max_h: 8 } },
    { name: 'Cool', in: 'room-still', until: { after_h: 3 } },
  ],
  targets: [{ kind: 'baked', core_C: 93, most_C: 99 }],
})

const sheet = (material: string): Plan['piece'] => ({
  shape: { kind: 'sheet', area_m2: 1 },
  fill: [{ material, thickness_mm: 80, start_C: 22 }],
})

describe('a sheet of sponge batter', () => {
  const found = forecast(plan(sheet('sponge-batter')))
  const { quantities } = found
  test('is baked, its mass is told before and after, and its height', () => {
    expect(found.answers[0]?.answer).toBe('yes')
    expect(quantities.mass_kg).toBeCloseTo(40, 9)
    const { mass_kg, water_lost_kg, water_lost_pct, poured_m, risen_m } = quantities.baked!
    expect(mass_kg).toBeCloseTo(40 - water_lost_kg, 9)
    expect(water_lost_pct).toBeCloseTo((100 * water_lost_kg) / 40, 9)
    expect(water_lost_pct).toBeGreaterThan(4)
    expect(water_lost_pct).toBeLessThan(10)
    expect(poured_m).toBeCloseTo(0.08, 9)
    expect(risen_m! / 0.08).toBeGreaterThan(1.35)
  })
  test('rises in its film, frame by frame', () => {
    const [part] = found.film
    expect(part!.risen_m).toHaveLength(part!.times_h.length)
    expect(part!.risen_m![0]).toBeCloseTo(0.08, 9)
    expect(part!.risen_m!.at(-1)).toBeCloseTo(quantities.baked!.risen_m!, 6)
  })
  test('says what is assumed, and keeps its books', () => {
    expect(found.model.notes.map(({ code }) => code)).toEqual(expect.arrayContaining(['boils-out', 'rises-and-sets']))
    expect(found.model.energyResidual).toBeLessThan(1e-9)
  })
  test('is in the document', () => {
    expect(forecastDocument(found).quantities.baked).toEqual(quantities.baked)
  })
})

test('a recipe with flour bakes of itself, as high as the plan says', () => {
  const recipe = [
    { ingredient: 'egg-whole', mass_kg: 20 },
    { ingredient: 'sugar-granulated', mass_kg: 12 },
    { ingredient: 'wheat-flour-cake', mass_kg: 12 },
  ]
  const { quantities } = forecast(plan(sheet('mine'), { mine: { recipe, density_kg_m3: 500, rises_to: 1.2 } }))
  expect(quantities.baked!.risen_m! / quantities.baked!.poured_m!).toBeGreaterThan(1.17)
  expect(quantities.baked!.risen_m! / quantities.baked!.poured_m!).toBeLessThan(1.2001)
})

test('a shape that holds it as poured says so', () => {
  const found = forecast(
    plan({ shape: { kind: 'dome', radius_mm: 80 }, fill: [{ material: 'sponge-batter', start_C: 22 }] }),
  )
  expect(found.cautions.map(({ code }) => code)).toContain('rise-left-out')
  expect(found.quantities.baked).toBeDefined()
  expect(found.quantities.baked!.risen_m).toBeUndefined()
})

test('what does not bake has no such quantities', () => {
  const cold = plan(sheet('gelatin-cream'))
  const found = forecast({ ...cold, targets: [], stages: [{ name: 'Chill', in: 'fridge-fan', until: { after_h: 6 } }] })
  expect(found.quantities.baked).toBeUndefined()
  expect(found.film[0]!.risen_m).toBeUndefined()
})
