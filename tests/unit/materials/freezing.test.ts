import { describe, expect, test } from 'vitest'
import { type Composition, freeWater, type Mass, solutionOf } from '../../../src/core/materials/composition.ts'
import { freezingPoint, unfrozenWater, waterActivity } from '../../../src/core/materials/freezing.ts'

const empty: Composition = {
  water: 0,
  protein: 0,
  fat: 0,
  sugars: {},
  starch: 0,
  fibre: 0,
  ash: 0,
  alcohol: 0,
  polyols: {},
  other: 0,
  salt: 0,
  crystals: 0,
}
const massOf = (composition: Partial<Composition>, ash_kg_mol: number): Mass => ({
  composition: { ...empty, ...composition },
  structure: 'OW',
  ash_kg_mol,
  syrup_DE: 42,
  fat_kinds: {},
  porosity: 0,
  pore_aw: 0.95,
})
const freezes = (composition: Partial<Composition>, ash_kg_mol = 0.065): number =>
  freezingPoint(solutionOf(massOf(composition, ash_kg_mol))!)
const syrup = (percent: number): Partial<Composition> => ({
  water: 1 - percent / 100,
  sugars: { sucrose: percent / 100 },
})

describe('freezing point', () => {
  // Cryoscope calibration solutions: −0.422 and −0.621 degrees Hortvet, turned into °C (−0.407, −0.598).
  // 0.3119 mol of sucrose per kg of water is the 10 g/100 ml solution.
  test('sucrose, 10 g in 100 ml', () => {
    const sucrose = 0.3119 * 0.3423
    const found = freezes({ water: 1 / (1 + sucrose), sugars: { sucrose: sucrose / (1 + sucrose) } })
    expect(Math.abs(found + 0.599)).toBeLessThan(0.005)
    expect(Math.abs(found + 0.598)).toBeLessThan(0.01)
  })

  // CRC Handbook, concentrative properties of sucrose solutions, from memory. At 40 % Norrish's law is 3 % short.
  test.each([
    [20, -1.47, 0.02],
    [30, -2.64, 0.03],
    [40, -4.45, 0.15],
  ])('sucrose, %d %% by weight', (percent, expected, within) => {
    expect(Math.abs(freezes(syrup(percent)) - expected)).toBeLessThan(within)
  })

  // USDA SR26 01077 (88.13 % water, 3.15 protein, 3.25 fat, 4.8 lactose, 0.67 ash); −0.53 °C in dairy textbooks,
  // legal range −0.52 to −0.55, from memory.
  test('whole milk', () => {
    const found = freezes({ water: 0.8813, protein: 0.0315, fat: 0.0325, sugars: { lactose: 0.048 }, ash: 0.0067 })
    expect(found).toBeLessThan(-0.52)
    expect(found).toBeGreaterThan(-0.55)
  })

  // Abstract of a study on lactose hydrolysis: 12 % fat, 11 % milk solids-not-fat, 15 % sugar, 61.7 % water freezes at
  // about −2.5 °C. Milk solids-not-fat as USDA SR26 01091 (54.0 % lactose, 35.9 % protein, 8.25 % ash).
  test('ice-cream mix', () => {
    const found = freezes({
      water: 0.617,
      protein: 0.11 * 0.359,
      fat: 0.12,
      sugars: { sucrose: 0.15, lactose: 0.11 * 0.54 },
      ash: 0.11 * 0.0825,
    })
    expect(Math.abs(found + 2.5)).toBeLessThan(0.15)
    expect(Math.abs(found + 2.55)).toBeLessThan(0.01)
  })

  // ASHRAE Handbook-Refrigeration 2006, table 3: strawberries begin to freeze at 30.6 °F. USDA SR26 09316.
  // The acids, 1 % of the fruit, are left out: some 0.04 K short.
  test('strawberry', () => {
    const sugars = { glucose: 0.0199, fructose: 0.0244, sucrose: 0.0047 }
    expect(Math.abs(freezes({ water: 0.9095, protein: 0.0067, sugars, ash: 0.004 }, 0.04) + 0.78)).toBeLessThan(0.05)
  })
})

describe('ice', () => {
  // Freezing-point curve of sucrose: 62 to 63 % at the eutectic of −13.95 °C (from memory).
  test('the solution freezes out along its own freezing-point curve', () => {
    const solution = solutionOf(massOf(syrup(30), 0.065))!
    const { water } = unfrozenWater(solution, -13.95)
    const strength = 0.3 / (0.3 + water)
    expect(strength).toBeGreaterThan(0.62)
    expect(strength).toBeLessThan(0.65)
    expect(freezes(syrup(100 * strength))).toBeCloseTo(-13.95, 9)
  })

  test('nothing at the freezing point, more the colder, no more below −34 °C', () => {
    const solution = solutionOf(massOf(syrup(25), 0.065))!
    const starts = freezingPoint(solution)
    expect(unfrozenWater(solution, starts).water).toBe(solution.solvent)
    expect(unfrozenWater(solution, starts - 1e-7).water).toBeCloseTo(solution.solvent, 6)
    let last = solution.solvent
    for (let T = starts - 0.01; T > -34; T -= 0.25) {
      const { water, slope } = unfrozenWater(solution, T)
      expect(water).toBeLessThan(last)
      const step = 1e-5
      const difference =
        (unfrozenWater(solution, T + step).water - unfrozenWater(solution, T - step).water) / (2 * step)
      expect(Math.abs(slope / difference - 1), `at ${T}`).toBeLessThan(1e-5)
      last = water
    }
    expect(unfrozenWater(solution, -40)).toEqual({ water: unfrozenWater(solution, -34).water, slope: 0 })
  })

  test('water held by protein and starch stays liquid', () => {
    const composition = { ...empty, water: 0.5, protein: 0.1, starch: 0.2 }
    expect(freeWater(composition)).toBeCloseTo(0.5 - 0.04 - 0.06, 12)
  })

  // ln(a_w) of ice against water at −10 °C: p_ice/p_water = 0.9074 (IAPWS, by way of vapour pressures).
  test('water activity at freezing is that of ice', () => {
    const T = freezes(syrup(56.6))
    expect(T).toBeLessThan(-9.5)
    expect(T).toBeGreaterThan(-10.5)
    const solution = solutionOf(massOf(syrup(56.6), 0.065))!
    expect(Math.abs(waterActivity(solution) - 0.9074)).toBeLessThan(0.006)
  })

  test('pure water', () => {
    const solution = solutionOf(massOf({ water: 1 }, 0.065))!
    for (const T of [-0.01, -1, -30]) expect(unfrozenWater(solution, T).water).toBeLessThan(-0.002 / T)
  })

  test('no law for crystals or for next to no free water', () => {
    expect(solutionOf(massOf({ water: 0.1, sugars: { sucrose: 0.5 }, crystals: 0.3 }, 0.065))).toBeNull()
    expect(solutionOf(massOf({ water: 0.05, protein: 0.1, sugars: { sucrose: 0.5 } }, 0.065))).toBeNull()
  })
})
