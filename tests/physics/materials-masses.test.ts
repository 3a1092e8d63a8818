import { readdirSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import sources from '../../shared/reference/sources.json'
import { type BuiltIn, builtInComposition, builtInMass } from '../../src/core/materials/built-in.ts'
import { findBuiltIn, getMaterial, materialIds } from '../../src/core/materials/index.ts'
import { massLaw } from '../../src/core/materials/mass-law.ts'

/*
 * Built-in masses against an independent program for the same compositions (USDA SR26 rows or ordinary recipes) and
 * against measurements. Columns: k W/(m K), c J/(kg K) without fat crystals and density kg/m³, all at 20 °C;
 * freezing point °C, by that program's own guess of the kinds of sugar and minerals.
 */
const independent: Record<string, readonly [k: number, c: number, rho: number, freezes: number | null]> = {
  'sponge-batter': [0.168, 2625, 500, -7.5],
  'sponge-crumb': [0.0997, 2394, 250, -17.01],
  'cocoa-oil-batter': [0.281, 2560, 950, -9.07],
  'cocoa-crumb': [0.127, 2308, 420, -20.13],
  'pound-batter': [0.226, 2392, 850, -11.64],
  'pound-crumb': [0.144, 2333, 500, -18.38],
  'choux-shell': [0.111, 2780, 250, -3.16],
  'wafer-sheet': [0.052, 1794, 150, null],
  shortcrust: [0.143, 2013, 700, null],
  'pastry-cream': [0.48, 3303, 1097, -2.0],
  'milk-pudding': [0.527, 3536, 1083, -1.88],
  'egg-custard': [0.531, 3663, 1053, -1.12],
  'fresh-cheese-cream': [0.421, 3066, 1091, -2.81],
  'whipped-cream': [0.205, 3284, 500, -0.5],
  buttercream: [0.212, 1942, 900, null],
  'cream-cheese-frosting': [0.286, 2539, 1000, -8.31],
  'fruit-mousse': [0.26, 3208, 650, -2.57],
  'cocoa-mousse': [0.268, 3303, 650, -1.87],
  'gelatin-jelly': [0.564, 3777, 1056, -1.02],
  'fruit-puree': [0.556, 3714, 1064, -1.47],
  jam: [0.382, 2379, 1343, -21.59],
  ganache: [0.314, 2512, 1107, -7.82],
  'hazelnut-paste': [0.195, 2000, 1049, null],
  'nut-spread': [0.314, 1567, 1279, null],
  'soft-caramel': [0.265, 1853, 1430, null],
  fondant: [0.43, 1557, 1529, null],
  'dark-chocolate': [0.301, 1596, 1300, null],
  'milk-chocolate': [0.296, 1620, 1305, null],
  'white-chocolate': [0.301, 1596, 1300, null],
  'cocoa-coating': [0.301, 1579, 1287, null],
  'ice-cream-base': [0.462, 3227, 1097, -2.61],
  'condensed-milk': [0.348, 2353, 1288, -21.4],
  'cream-cheese': [0.39, 3162, 1004, -1.52],
  'cream-37': [0.394, 3246, 982, -0.5],
  honey: [0.321, 2030, 1444, null],
  'white-bread': [0.116, 2579, 286, -8.25],
  butter: [0.219, 2400, 933, null],
}

const builtIn = (id: string): BuiltIn => findBuiltIn(id)!

test('every file of the folder is in the list, and the other way round', () => {
  const listed = readdirSync('shared/materials').filter((name) => name.endsWith('.json'))
  expect(listed.map((name) => name.replace('.json', '')).sort()).toEqual([...materialIds].sort())
  for (const id of materialIds) expect(builtIn(id).id).toBe(id)
})

test('every source is listed with its full reference', () => {
  for (const id of materialIds) for (const key of getMaterial(id).sources) expect(Object.keys(sources)).toContain(key)
})

describe.each(Object.entries(independent))('%s', (id, [k, c, rho, freezes]) => {
  const data = builtIn(id)
  const material = getMaterial(id)
  const law = massLaw(builtInMass(data))

  test('composition as written adds up, kinds of sugar and of fat too', () => {
    const parts = Object.values(data.composition_pct)
    expect(Math.abs(parts.reduce((sum, share) => sum + share, 0) - 100)).toBeLessThan(1.5)
    const sugars = Object.values(data.sugars_pct).reduce((sum, share) => sum + share, 0)
    expect(Math.abs(sugars - data.composition_pct.sugars)).toBeLessThan(0.11)
    const fats = Object.values(data.fat_kinds).reduce((sum, share) => sum + share, 0)
    if (Object.keys(data.fat_kinds).length > 0) expect(fats).toBeCloseTo(1, 9)
    const { crystals, sugars: kinds } = builtInComposition(data)
    expect(crystals).toBeLessThanOrEqual((kinds.sucrose ?? 0) + 1e-12)
  })

  // Printed with three digits; density of milk and white chocolate counts their milk fat as liquid here.
  test('conductivity, heat capacity and density as by the independent program', () => {
    expect(Math.abs(material.at(20).k / k - 1)).toBeLessThan(0.004)
    const none = { mass: 0, slope: 0 }
    const step = 0.01
    const slope =
      (law.enthalpyWithoutFatCrystals(20 + step, none) - law.enthalpyWithoutFatCrystals(20 - step, none)) / (2 * step)
    expect(Math.abs(slope / c - 1)).toBeLessThan(0.0025)
    expect(Math.abs(material.density / rho - 1)).toBeLessThan(0.002)
  })

  // 8 %: the kinds of sugar and the osmoles of the minerals are set apart in the two programs.
  test('freezing point near that of the independent program', () => {
    if (freezes === null || id === 'butter') return
    expect(Math.abs(material.freezes_C! / freezes - 1)).toBeLessThan(0.08)
  })

  test('measured values are met within 15 %, or the miss is explained', () => {
    for (const one of data.measured) {
      const at = material.at(one.at_C ?? 20)
      const found = {
        k: at.k,
        rho: at.rho,
        c: capacity(law, one.at_C ?? 20),
        'freezing point': material.freezes_C ?? Number.NaN,
      }
      const miss = Math.abs(found[one.property] / one.value - 1)
      if (miss > 0.15) expect(one.miss, `${one.property}: ${found[one.property]} for ${one.value}`).toBeTruthy()
      else expect(one.miss).toBeUndefined()
    }
  })
})

/** Sensible heat capacity, J/(kg K): what a calorimeter table lists. */
function capacity(law: ReturnType<typeof massLaw>, T: number): number {
  const none = { mass: 0, slope: 0 }
  return (law.enthalpyWithoutFatCrystals(T + 0.01, none) - law.enthalpyWithoutFatCrystals(T - 0.01, none)) / 0.02
}

// IAPWS: ice forms at 0 °C with 333.55 kJ/kg; the model gives pure water a trace of solutes, within 0.02 K.
test('water freezes at once', () => {
  const water = getMaterial('water')
  expect(water.freezes_C).toBeGreaterThan(-0.005)
  expect(water.at(-0.2).ice_share).toBeGreaterThan(0.98)
  const heat = water.at(0).enthalpy_J_kg - water.at(-0.2).enthalpy_J_kg
  expect(Math.abs(heat / 333_550 - 1)).toBeLessThan(0.012)
})

describe('against measurements', () => {
  // Beckett 2009: solid chocolate 1300 kg/m³, 1590 J/(kg K), 0.26 to 0.28 W/(m K).
  test('dark chocolate', () => {
    const law = massLaw(builtInMass(builtIn('dark-chocolate')))
    const { k, rho } = getMaterial('dark-chocolate').at(20)
    expect(Math.abs(rho / 1300 - 1)).toBeLessThan(0.03)
    expect(Math.abs(capacity(law, 20) / 1590 - 1)).toBeLessThan(0.03)
    expect(Math.abs(k / 0.27 - 1)).toBeLessThan(0.16)
  })

  // Beckett 2009 (after Chevalley 1970): heat of melting of dark chocolate 46, milk chocolate 44 J/g.
  test('chocolate melts with its published heat', () => {
    for (const [id, published] of [
      ['dark-chocolate', 46_000],
      ['milk-chocolate', 44_000],
    ] as const) {
      const material = getMaterial(id)
      const law = massLaw(builtInMass(builtIn(id)))
      const none = { mass: 0, slope: 0 }
      const all = material.at(40).enthalpy_J_kg - material.at(-40).enthalpy_J_kg
      const sensible = law.enthalpyWithoutFatCrystals(40, none) - law.enthalpyWithoutFatCrystals(-40, none)
      // 10 %: typical curves and heats of fats are known to 15 %.
      expect(Math.abs((all - sensible) / published - 1)).toBeLessThan(0.1)
    }
  })

  // Sweat 1973, yellow cake by line-source probe (figures from memory); composition USDA 18146 at the stated water.
  test.each([
    ['batter', 694, 41.53, 4.14, 11.41, 1.49, 0.55, 25.79, 15.09, 0.223, 0.1],
    ['quarter baked', 815, 40.03, 4.25, 11.7, 1.52, 0.56, 26.46, 15.47, 0.239, 0.125],
    ['half baked', 360, 39.03, 4.32, 11.9, 1.55, 0.57, 26.9, 15.73, 0.147, 0.1],
    ['three quarters baked', 265, 37.53, 4.43, 12.19, 1.59, 0.58, 27.56, 16.12, 0.132, 0.1],
    ['done', 300, 35.53, 4.57, 12.58, 1.64, 0.6, 28.44, 16.63, 0.121, 0.1],
  ] as const)('yellow cake, %s', (_, density, water, protein, fat, ash, fibre, sugars, starch, measured, within) => {
    const mass = builtInMass({
      id: 'yellow-cake',
      title: 'Yellow cake',
      look: 'sponge',
      composition_pct: { water, protein, fat, sugars, starch, fibre, ash },
      sugars_pct: { sucrose: sugars },
      fat_kinds: {},
      ash_kg_mol: 0.035,
      structure: 'OW',
      density_kg_m3: density,
      pore_aw: 0.93,
      composition_source: { source: 'usda-sr26', certainty: 'from memory', note: '' },
      measured: [],
      weak: [],
    })
    const k = massLaw(mass).k(25, { mass: 0, slope: 0 })
    // The quarter-baked sample is denser than the batter it came from: 12 % there.
    expect(Math.abs(k / measured - 1)).toBeLessThan(within)
    if (_ === 'done') expect(Math.abs(k / 0.128 - 1)).toBeLessThan(0.01)
  })

  // Sweat and Parmelee 1978, 28 dairy products and margarines: k = 0.141 + 0.00412 W %, r = 0.93.
  test.each(['cream-37', 'cream-cheese', 'butter'])('%s against the dairy regression', (id) => {
    const expected = 0.141 + 0.00412 * builtIn(id).composition_pct.water
    expect(Math.abs(getMaterial(id).at(20).k / expected - 1)).toBeLessThan(0.08)
  })
})
