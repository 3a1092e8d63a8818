import { describe, expect, test } from 'vitest'
import {
  nusseltBoxSides,
  nusseltLiquidLayer,
  nusseltLiquidLayerMeasured,
} from '../../src/core/boundary/natural/enclosure.ts'
import { forecast } from '../../src/core/forecast.ts'
import type { Course } from '../../src/core/journey/course.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { getMaterial } from '../../src/core/materials/index.ts'
import { poursWithin } from '../../src/core/plan/pouring.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { resolvePlan } from '../../src/core/plan/resolve.ts'
import { say } from '../../src/core/words/sentences.ts'
import { metric } from '../../src/core/words/show.ts'

describe('laws of a liquid between walls', () => {
  test('nothing stirs below a Rayleigh number of 1708 (exact: linear stability of a layer between rigid walls)', () => {
    expect(nusseltLiquidLayer(1700)).toBe(1)
    expect(nusseltLiquidLayer(2500)).toBeGreaterThan(1.3)
  })

  // Globe and Dropkin 1959 (from memory): liquids up to silicone oils. 25 %: two fits of other liquids' data.
  test.each([3e5, 1e6, 3e6, 1e7])('as measured at Ra %d, milk to oil', (Ra) => {
    const law = nusseltLiquidLayer(Ra)
    expect(law).toBeGreaterThan(0.75 * nusseltLiquidLayerMeasured(Ra, 1000))
    expect(law).toBeLessThan(1.25 * nusseltLiquidLayerMeasured(Ra, 20))
  })

  // Catton 1978 (from memory): a box cooled at its sides passes about as much as one cooled from above.
  test.each([1e5, 1e6, 1e7])('as between two side walls at Ra %d, within a fifth', (Ra) => {
    expect(Math.abs(nusseltLiquidLayer(Ra) / nusseltBoxSides(Ra, 100) - 1)).toBeLessThan(0.2)
  })
})

describe('how long a mass pours', () => {
  // Gelatin of 2 % gels near 25 to 28 °C when cooled slowly, dark chocolate thickens near 30, raw custard near 75: from
  // memory, common practice.
  test.each([
    ['gelatin-cream', 22, 29],
    ['dark-chocolate', 28, 33],
  ])('%s stops between %d and %d °C', (id, low, high) => {
    const { above_C } = poursWithin(getMaterial(id))
    expect(above_C).toBeGreaterThan(low)
    expect(above_C).toBeLessThan(high)
  })

  test('custard stops when it is heated, water when it freezes', () => {
    const { above_C, below_C } = poursWithin(getMaterial('egg-custard'))
    expect(below_C).toBeGreaterThan(65)
    expect(below_C).toBeLessThan(85)
    expect(above_C).toBeLessThan(0)
    expect(poursWithin(getMaterial('water'))).toEqual({ above_C: expect.closeTo(0, 1), below_C: Infinity })
  })
})

interface Wish {
  readonly pours?: 'watery' | 'thin' | 'syrupy'
  readonly top_h?: number
  readonly bottom_h?: number
  readonly thickness_mm?: number
}

const liquid = { fixed: { k_W_mK: 0.5, rho_kg_m3: 1040, c_J_kgK: 3600 } }

/** A level layer of fixed properties, cooled by films of its own. */
function layer({ pours, top_h = 10, bottom_h = 0, thickness_mm = 150 }: Wish): Course {
  const plan = readPlan(
    JSON.stringify({
      ...{ format: 'thickset-plan', version: 1, title: 'Layer', startsAt: '2027-03-12T16:00' },
      materials: { liquid: { ...liquid, ...(pours === undefined ? {} : { pours }) } },
      piece: { shape: { kind: 'sheet', area_m2: 0.2 }, fill: [{ material: 'liquid', thickness_mm, start_C: 70 }] },
      stages: [
        {
          name: 'Cool',
          in: { air_C: 10, faces: { top: { h_W_m2K: top_h }, bottom: { h_W_m2K: bottom_h } } },
          until: { after_h: 12 },
        },
      ],
    }),
  )
  return runJourney(resolvePlan(plan).job, { fidelity: 'standard' })
}

const gainsOf = (course: Course): number[] =>
  course.segments.flatMap(({ states }) => (states.currents ?? []).flatMap((one) => Array.from(one)))

describe('a level layer that pours', () => {
  const still = layer({})
  const thin = layer({ pours: 'thin' })

  test('cooled from above it cools as if it were stirred', () => {
    // Lumped: T = 10 + 60 exp(−h t/(rho c L)); the film's 10 against k Nu/L of 50 or more: within 4 % of the fall.
    for (const h of [2, 5, 10]) {
      const i = thin.t.findIndex((t) => t >= 3600 * h)
      const lumped = 10 + 60 * Math.exp((-10 * thin.t[i]!) / (1040 * 3600 * 0.15))
      expect(Math.abs(thin.mean_C[i]! - lumped)).toBeLessThan(0.04 * (70 - lumped))
      expect(thin.mean_C[i]!).toBeGreaterThan(lumped - 1e-6)
    }
    expect(thin.mean_C.at(-1)!).toBeLessThan(still.mean_C.at(-1)! - 3)
    expect(thin.hottest_C.at(-1)!).toBeLessThan(still.hottest_C.at(-1)! - 10)
  })

  test('the thinner, the faster; syrup lies between', () => {
    const syrup = layer({ pours: 'syrupy' })
    const water = layer({ pours: 'watery' })
    const ends = [still, syrup, thin, water].map((course) => course.hottest_C.at(-1)!)
    expect(ends).toEqual([...ends].sort((a, b) => b - a))
    expect(Math.max(...gainsOf(water))).toBeGreaterThan(Math.max(...gainsOf(syrup)))
  })

  test('cooled from below it lies still: warm on cold is stable', () => {
    const course = layer({ pours: 'thin', top_h: 0, bottom_h: 10 })
    expect(Math.max(...gainsOf(course))).toBe(1)
    const alike = layer({ top_h: 0, bottom_h: 10 })
    expect(course.hottest_C.at(-1)!).toBeCloseTo(alike.hottest_C.at(-1)!, 9)
  })

  test('a film of 3 mm lies still', () => {
    expect(Math.max(...gainsOf(layer({ pours: 'thin', thickness_mm: 3 })))).toBe(1)
  })

  test('heat is conserved to round-off', () => {
    for (const course of [thin, layer({ pours: 'watery' })]) expect(course.energyResidual).toBeLessThan(1e-10)
  })
})

/** A gelatin cream poured hot in a mould, set in a cold room. */
const cream = (shape: object, thickness_mm?: number, material = 'gelatin-cream') =>
  readPlan(
    JSON.stringify({
      ...{ format: 'thickset-plan', version: 1, title: 'Cream', startsAt: '2027-03-12T16:00', fidelity: 'quick' },
      // As the built-in one, without a word of how it pours.
      materials: {
        still: {
          composition_pct: { water: 66.13, protein: 2.82, fat: 18.81, sugars: 11.77, starch: 0, fibre: 0, ash: 0.47 },
        },
      },
      piece: {
        shape,
        fill: [{ material, start_C: 60, ...(thickness_mm === undefined ? {} : { thickness_mm }) }],
      },
      stages: [{ name: 'Set', in: 'cold-room', until: { after_h: 30 } }],
      targets: [{ kind: 'cooled', core_C: 10 }],
    }),
  )

describe('a cream with gelatin', () => {
  const block = { kind: 'block', width_mm: 260, length_mm: 340 }

  test.each([
    ['block', block, 120],
    ['trough', { kind: 'trough', radius_mm: 120, length_mm: 600 }, undefined],
    ['round', { kind: 'round', diameter_mm: 260 }, 120],
    ['log', { kind: 'log', diameter_mm: 160, length_mm: 500 }, undefined],
    ['dome', { kind: 'dome', radius_mm: 130 }, undefined],
  ])('%s: conserves heat, and every place lies still once it has set', (_, shape, thickness_mm) => {
    const course = runJourney(resolvePlan(cream(shape, thickness_mm)).job, { fidelity: 'quick' })
    expect(course.energyResidual).toBeLessThan(1e-8)
    expect(Math.max(...gainsOf(course).filter((gain) => !Number.isNaN(gain)))).toBeGreaterThan(3)
    const { states, T_C } = course.segments[0]!
    for (const [sample, gains] of states.currents!.entries())
      for (let cell = 0; cell < gains.length; cell++) if (T_C[sample]![cell]! < 22) expect(gains[cell]!).toBe(1)
    expect(Math.max(...states.currents!.at(-1)!)).toBe(1)
  })

  test('both bounds are in the band, and a caution says so', () => {
    const made = forecast(cream(block, 120))
    const answer = made.answers[0]!
    const unstirred = forecast(cream(block, 120, 'still')).answers[0]!
    expect(answer.at_h!).toBeLessThan(unstirred.at_h!)
    expect(answer.late_h!).toBeGreaterThan(0.97 * unstirred.at_h!)
    const said = made.cautions.find(({ code }) => code === 'mass-pours')
    expect(said).toBeDefined()
    expect(say(said!, metric)).toMatch(/pours as it comes.*band reaches from no currents/)
  })

  test('a mass that holds the trace of a spoon has no currents and no such caution', () => {
    expect(forecast(cream(block, 120, 'pastry-cream')).cautions.map(({ code }) => code)).not.toContain('mass-pours')
  })
})
