import { describe, expect, test } from 'vitest'
import { analyticMaterial } from '../../src/core/materials/analytic.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import { getMaterial, materialIds } from '../../src/core/materials/index.ts'
import type { Material, ThermalCurve } from '../../src/core/materials/material.ts'
import { materialFromPlan } from '../../src/core/materials/material-from-plan.ts'
import { tableMaterial } from '../../src/core/materials/table.ts'

/* Identities that hold for any material whatever its data: checked on every one, over −45 to 250 °C. */

const LOW = -45
const HIGH = 250

const builtIn = materialIds.map(getMaterial)
const materials: readonly Material[] = [
  ...builtIn,
  ...builtIn.flatMap(({ id, cooling }) => (cooling === undefined ? [] : [{ ...cooling, id: `${id}, cooling` }])),
  fixedMaterial({ id: 'fixed', title: 'fixed', k: 0.4, rho: 500, c: 2800 }),
  tableMaterial({
    id: 'table',
    title: 'table',
    rho: 1080,
    T_C: [-40, -5, -1, 90],
    enthalpy_J_kg: [0, 90_000, 260_000, 600_000],
    k: [1.6, 1.4, 0.5, 0.55],
  }),
  materialFromPlan(
    'composition',
    { composition_pct: { water: 62, protein: 9, fat: 8, sugars: 20, fibre: 0.4, ash: 0.6 }, air_pct: 5 },
    'materials.composition',
  ),
  analyticMaterial({
    id: 'analytic',
    title: 'analytic',
    density: 1000,
    k: (T) => 0.2 * (1 + 0.0015 * T),
    storage: { kind: 'capacity', rho_c: (T) => 1.6e6 * (1 + 0.001 * T) },
  }),
]

/** Straight lines between the points of one column, at a temperature inside the curve. */
function read(curve: ThermalCurve, column: Float64Array, T: number): number {
  let low = 0
  let high = curve.T_C.length - 1
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if (curve.T_C[middle]! <= T) low = middle
    else high = middle
  }
  const share = (T - curve.T_C[low]!) / (curve.T_C[high]! - curve.T_C[low]!)
  return column[low]! + share * (column[high]! - column[low]!)
}

const grid: number[] = []
for (let T = LOW + 0.137; T < HIGH; T += 0.613) grid.push(T)

describe.each(materials.map((material) => [material.id, material] as const))('%s', (_, material) => {
  const curve = material.curve(LOW, HIGH)
  const points = curve.T_C.length

  test('reaches the range asked for, in order, on its freezing point, in at most 3000 points', () => {
    expect(curve.T_C[0]).toBeLessThanOrEqual(LOW)
    expect(curve.T_C[points - 1]).toBeGreaterThanOrEqual(HIGH)
    expect(points).toBeLessThanOrEqual(3000)
    for (let i = 1; i < points; i++) {
      expect(curve.T_C[i]).toBeGreaterThanOrEqual(curve.T_C[i - 1]!)
      expect(curve.enthalpy[i]).toBeGreaterThan(curve.enthalpy[i - 1]!)
      if (curve.T_C[i]! > curve.T_C[i - 1]!)
        expect(curve.conductivityIntegral[i]).toBeGreaterThan(curve.conductivityIntegral[i - 1]!)
    }
    for (const kink of curve.kinks_C) expect(curve.T_C).toContain(kink)
    if (material.freezes_C !== undefined) expect(curve.kinks_C[0]).toBe(material.freezes_C)
  })

  test('polyline and properties say the same enthalpy', () => {
    const offset = read(curve, curve.enthalpy, 20) - material.density * material.at(20).enthalpy_J_kg
    for (const T of grid) {
      const { enthalpy_J_kg, c } = material.at(T)
      const miss = read(curve, curve.enthalpy, T) - offset - material.density * enthalpy_J_kg
      // Told in kelvin: pieces are halved until their middle is within 0.8 mK, and the middle is kept.
      expect(Math.abs(miss) / (material.density * c), `at ${T} °C`).toBeLessThan(1e-3)
    }
  })

  test('polyline and properties say the same conductivity', () => {
    // Over 5 K, by Gauss's rule of two points on pieces of `at` on each side of a corner, where it may jump.
    for (let T = LOW + 1; T + 5 < HIGH; T += 5) {
      const inside = curve.kinks_C.filter((corner) => corner > T && corner < T + 5)
      const ends = [T, ...inside, T + 5]
      const cuts = 50
      let integral = 0
      for (let j = 1; j < ends.length; j++) {
        const width = (ends[j]! - ends[j - 1]!) / cuts
        for (let i = 0; i < cuts; i++)
          for (const off of [-0.5, 0.5])
            integral += (width / 2) * material.at(ends[j - 1]! + width * (i + 0.5 + off / Math.sqrt(3))).k
      }
      const drawn = read(curve, curve.conductivityIntegral, T + 5) - read(curve, curve.conductivityIntegral, T)
      // At each of the two ends the chord may miss by 1 mK of 5 K: 0.04 % in all.
      expect(Math.abs(drawn / integral - 1), `from ${T} °C`).toBeLessThan(4e-4)
    }
  })

  test('c is the slope of the enthalpy', () => {
    const step = 1e-4
    for (const T of grid) {
      // At a corner the slope has two values.
      if ([...curve.kinks_C, -34, -40, 0, 150].some((corner) => Math.abs(corner - T) < 2 * step)) continue
      const slope = (material.at(T + step).enthalpy_J_kg - material.at(T - step).enthalpy_J_kg) / (2 * step)
      expect(Math.abs(slope / material.at(T).c - 1), `at ${T} °C`).toBeLessThan(1e-5)
    }
  })

  test('conductivity, density and heat capacity are positive, shares lie in 0…1 and never rise with warmth', () => {
    let ice = 1
    let solid = 1
    for (const T of grid) {
      const found = material.at(T)
      expect(found.k).toBeGreaterThan(0)
      expect(found.k).toBeLessThan(3)
      expect(found.rho).toBeGreaterThan(0)
      expect(found.c).toBeGreaterThan(0)
      expect(found.ice_share).toBeGreaterThanOrEqual(0)
      expect(found.ice_share).toBeLessThanOrEqual(ice)
      expect(found.solid_fat_share).toBeGreaterThanOrEqual(0)
      expect(found.solid_fat_share).toBeLessThanOrEqual(solid + 1e-12)
      ice = found.ice_share
      solid = found.solid_fat_share
    }
    expect(ice).toBe(0)
  })

  test('composition adds up to 100 %', () => {
    if (material.composition_pct === undefined) return
    const total = Object.values(material.composition_pct).reduce((sum, share) => sum + share, 0)
    expect(Math.abs(total - 100)).toBeLessThan(1e-9)
  })

  test('heat over a closed temperature cycle is nothing', () => {
    // Steps of odd size down to −30 °C and up again, apart from any point of the curve: sums of m·ΔH must cancel.
    const path: number[] = []
    for (let T = 60; T > -30; T -= 1.37) path.push(T)
    for (let T = -30; T < 60; T += 0.83) path.push(T)
    path.push(60)
    let moved = 0
    let balance = 0
    for (let i = 1; i < path.length; i++) {
      const heat = read(curve, curve.enthalpy, path[i]!) - read(curve, curve.enthalpy, path[i - 1]!)
      moved += Math.abs(heat)
      balance += heat
    }
    expect(Math.abs(balance)).toBeLessThan(1e-9 * moved)
  })

  test('a second request inside the first is answered by the same curve; beyond, by one that agrees', () => {
    const wider = material.curve(LOW - 10, HIGH)
    for (let T = LOW + 1; T < HIGH; T += 17) {
      const first = read(curve, curve.enthalpy, T) - read(curve, curve.enthalpy, 20)
      const second = read(wider, wider.enthalpy, T) - read(wider, wider.enthalpy, 20)
      expect(Math.abs(first - second)).toBeLessThan(2e-3 * material.density * material.at(T).c)
    }
  })
})

// Down by the curve of the undercooled fat, up by that of the rested one: the two meet in the cold and above the melt.
describe.each(
  builtIn.flatMap((rested) => (rested.cooling === undefined ? [] : [[rested.id, rested, rested.cooling] as const])),
)('%s melted and set again', (_, rested, cooling) => {
  test('takes and gives the same heat', () => {
    const up = rested.at(60).enthalpy_J_kg - rested.at(-30).enthalpy_J_kg
    const down = cooling.at(60).enthalpy_J_kg - cooling.at(-30).enthalpy_J_kg
    expect(Math.abs(up - down)).toBeLessThan(1e-9 * up)
  })

  test('sets later than it melts', () => {
    for (let T = -30; T <= 60; T += 0.7) {
      expect(cooling.at(T).solid_fat_share).toBeLessThanOrEqual(rested.at(T).solid_fat_share + 1e-12)
      expect(cooling.at(T).enthalpy_J_kg).toBeGreaterThanOrEqual(rested.at(T).enthalpy_J_kg - 1e-6)
      expect(cooling.at(T).k).toBe(rested.at(T).k)
    }
  })
})
