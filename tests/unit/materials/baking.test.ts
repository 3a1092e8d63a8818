import { describe, expect, test } from 'vitest'
import { bakingOf, starchSettingRate, sugarDelay } from '../../../src/core/materials/baking.ts'
import { type BuiltIn, builtInMass } from '../../../src/core/materials/built-in.ts'
import { condensedDensity, type Mass } from '../../../src/core/materials/composition.ts'
import { findBuiltIn, getMaterial } from '../../../src/core/materials/index.ts'
import { massLaw } from '../../../src/core/materials/mass-law.ts'
import type { Baking } from '../../../src/core/materials/material.ts'
import { materialFromPlan } from '../../../src/core/materials/material-from-plan.ts'

const bakingAs = (id: string): Baking => getMaterial(id).baking!

// Zanoni and others 1995, J. Food Eng. 24, 25 (from memory): 2.8e18 exp(−139 000/(R T)) gives these rates, printed with
// two digits.
test.each([
  [60, 4.5e-4],
  [70, 1.9e-3],
  [80, 7.7e-3],
  [90, 2.8e-2],
])('starch in lean dough sets at %s °C with %s 1/s', (T_C, rate) => {
  expect(Math.abs(starchSettingRate(T_C, 0) / rate - 1)).toBeLessThan(0.03)
})

// Temperatures of 98 % at steady heating by the same constants, integrated by an independent program.
test.each([
  [0.5, 76.2],
  [1, 81.2],
  [2, 86.2],
  [5, 93.2],
])('heated at %s K/min, lean dough is 98 %% set at %s °C', (perMinute, expected) => {
  const dt = 0.5
  let soft = 1
  let T_C = 25
  while (soft > 0.02) {
    soft *= Math.exp(-dt * starchSettingRate(T_C + (perMinute / 120) * dt, 0))
    T_C += (perMinute / 60) * dt
  }
  expect(Math.abs(T_C - expected)).toBeLessThan(0.15)
})

// About 0.6 K for each per cent of sugar in sugar and water (from memory: Spies and Hoseney 1982; estimate).
test('sugar delays setting', () => {
  const { sugars, water } = findBuiltIn('sponge-batter')!.composition_pct
  expect(sugarDelay(builtInMass(findBuiltIn('sponge-batter')!))).toBeCloseTo((60 * sugars) / (sugars + water), 2)
  // Cake batters set between 85 and 95 °C (from memory): half within a quarter of an hour there.
  for (const id of ['sponge-batter', 'pound-batter', 'cocoa-oil-batter']) {
    const half = (T_C: number): number => Math.log(2) / bakingAs(id).settingRate(T_C)
    expect(half(80)).toBeGreaterThan(2700)
    expect(half(95)).toBeLessThan(900)
  }
})

describe('growth', () => {
  // Ideal gas with vapour at a_w 0.93 from 25 °C: 1.33 at 60, 2.04 at 80, 3.32 at 90 °C, printed with three digits.
  const water = builtInMass(findBuiltIn('water')!)
  const activity = 0.93
  // All but gas, and a solution of that activity: sugar as needed.
  const sugar = ((): number => {
    let [low, high] = [0, 5]
    for (let i = 0; i < 50; i++) {
      const middle = (low + high) / 2
      if (bakingOfSyrup(middle).boils_C < 102.02) low = middle
      else high = middle
    }
    return low
  })()
  function bakingOfSyrup(perWater: number, porosity = 0.999): Baking {
    const composition = {
      ...water.composition,
      water: 1 / (1 + perWater),
      sugars: { sucrose: perWater / (1 + perWater) },
      ash: 0,
    }
    const mass: Mass = { ...water, composition, porosity, pore_aw: activity }
    const density = (1 - porosity) * condensedDensity(mass, 20, 0)
    return bakingOf(mass, massLaw(mass), density, { baked: false, mostGrowth: 1000, leavening: 0 })!
  }
  test.each([
    [60, 1.33],
    [80, 2.04],
    [90, 3.32],
  ])('gas in a foam grows from 25 to %s °C by %s', (T_C, growth) => {
    const law = bakingOfSyrup(sugar)
    const gas = (T: number): number => law.softGrowth(T) - 0.001
    expect(Math.abs(gas(T_C) / gas(25) / growth - 1)).toBeLessThan(0.006)
  })
  test('never beyond where bubbles open', () => {
    for (const id of ['sponge-batter', 'pound-batter', 'cocoa-oil-batter']) {
      const law = bakingAs(id)
      let last = law.softGrowth(20)
      expect(last).toBeCloseTo(1, 9)
      for (let T = 20; T < 160; T += 0.5) {
        expect(law.softGrowth(T)).toBeGreaterThanOrEqual(last)
        last = law.softGrowth(T)
      }
      expect(last).toBe(law.mostGrowth)
    }
  })
  test('what is laid in baked does not grow', () => expect(bakingAs('sponge-crumb').softGrowth(90)).toBe(1))
})

// Boiling point of sucrose solutions at 1 atm, handbook of the sugar trade (from memory): +0.6 K at 30, +1.0 at 40 and
// +1.8 K at 50 per cent; the sponge batter is one of 42 per cent with some minerals.
test('batters boil where their sugar solution does', () => {
  expect(bakingAs('sponge-batter').boils_C).toBeGreaterThan(99.97 + 1)
  expect(bakingAs('sponge-batter').boils_C).toBeLessThan(99.97 + 1.8)
})

describe.each(['sponge-batter', 'pound-batter', 'cocoa-oil-batter', 'white-bread', 'sponge-crumb'])('%s', (id) => {
  const material = getMaterial(id)
  const law = material.baking!
  // IAPWS-IF97: enthalpy of saturated steam, 2675.6 kJ/kg at 100 °C and 2683.4 at 105 °C, from liquid at 0 °C.
  test('vapour leaves with the heat that a steam table gives it', () => {
    const { boils_C, boilsOut, evaporation, crust } = law
    const moist = material.at(boils_C - 1e-9).enthalpy_J_kg
    const steam = evaporation + (moist - crust.enthalpy(boils_C)) / boilsOut
    const table = 2_675_600 + ((boils_C - 100) / 5) * 7_800
    expect(Math.abs(steam / table - 1)).toBeLessThan(0.002)
  })
  test('is supported beyond boiling, and says what is left out', () => {
    expect(material.validity_C[1]).toBeGreaterThan(law.boils_C + 30)
    expect(material.notes.map((note) => note.code)).toContain('boils-out')
  })
  test('crust conducts less than crumb by a factor of two at least, and more than still air', () => {
    for (let T = law.boils_C; T < 180; T += 10) {
      expect(law.crustConductivity(T, law.mostGrowth)).toBeLessThan(law.moistConductivity(95, 1, law.mostGrowth) / 2)
      expect(law.crustConductivity(T, law.mostGrowth)).toBeGreaterThan(0.033)
    }
  })
})

// Zanoni and others 1995, J. Food Eng. 26, 497 (abstract seen), bread while it bakes, eps in per cent: crust has
// diffusivity exp(0.0062 eps − 15.30) m²/s and density 895 − 9.0 eps kg/m³. With the heat capacity of the dry mass,
// which they do not print, that is its conductivity. 30 %: what crust conductivities are known to.
test('crust of bread conducts as measured', () => {
  const bread = getMaterial('white-bread')
  const law = bread.baking!
  const left = 1 - law.boilsOut
  const eps = 100 * (1 - (bread.density * left) / 1400)
  const measured = Math.exp(0.0062 * eps - 15.3) * (895 - 9 * eps) * (law.crust.c(130) / left)
  expect(Math.abs(law.crustConductivity(130, 1) / measured - 1)).toBeLessThan(0.3)
})

describe('recipes', () => {
  const line = (ingredient: string, mass_kg: number) => ({ ingredient, mass_kg })
  const sponge = [line('egg-whole', 2), line('sugar', 1.2), line('wheat-flour-cake', 1.2)]
  test('with flour are batters, and say what growth was taken', () => {
    const material = materialFromPlan('mine', { recipe: sponge, overrun_pct: 120 }, 'materials.mine')
    expect(material.baking?.baked).toBe(false)
    expect(material.notes.map((note) => note.code)).toContain('growth-guessed')
  })
  test('grow as the plan says', () => {
    const material = materialFromPlan('mine', { recipe: sponge, overrun_pct: 120, rises_to: 1.25 }, 'materials.mine')
    expect(material.baking?.mostGrowth).toBe(1.25)
    expect(material.notes.map((note) => note.code)).not.toContain('growth-guessed')
  })
  test('with water lost came out of the oven', () => {
    const material = materialFromPlan('mine', { recipe: sponge, water_loss_pct: 8 }, 'materials.mine')
    expect(material.baking?.baked).toBe(true)
  })
  test('without flour do not bake', () => {
    const material = materialFromPlan('mine', { recipe: [line('cream-37', 1), line('sugar', 0.1)] }, 'materials.mine')
    expect(material.baking).toBeUndefined()
  })
  // 12 % of baking powder is carbon dioxide: 0.65 L of gas for each per cent of it in a kg of batter at 20 °C.
  test('leavening drives them on', () => {
    const plain = materialFromPlan('a', { recipe: sponge, air_pct: 10, rises_to: 3 }, 'materials.a').baking!
    const leavened = materialFromPlan(
      'b',
      { recipe: [...sponge, line('baking-powder', 0.044)], air_pct: 10, rises_to: 3 },
      'materials.b',
    )
    const gas = (leavened.baking!.softGrowth(75) - plain.softGrowth(75)) / leavened.density
    const warmed = (plain.softGrowth(75) - 0.9) / 0.1
    expect(gas / warmed / 0.65e-3).toBeGreaterThan(0.93)
    expect(gas / warmed / 0.65e-3).toBeLessThan(1.07)
  })
})

const builtIn = (id: string): BuiltIn => findBuiltIn(id)!
test('a mass with next to no water does not bake', () => {
  const mass = builtInMass(builtIn('dark-chocolate'))
  expect(bakingOf(mass, massLaw(mass), 1300, { baked: true, mostGrowth: 1, leavening: 0 })).toBeUndefined()
})
