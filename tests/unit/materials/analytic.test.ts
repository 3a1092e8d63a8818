import { expect, test } from 'vitest'
import { analyticMaterial } from '../../../src/core/materials/analytic.ts'

test('heat capacity is integrated, latent heat taken up where it belongs', () => {
  const water = analyticMaterial({
    id: 'water',
    title: 'water',
    density: 1000,
    k: (T) => (T < -1 ? 2.2 : 0.58),
    storage: { kind: 'capacity', rho_c: (T) => (T < -1 ? 2.1e6 : 4.2e6) },
    jumps: [{ T_C: -1, latent: 3.335e8 }],
  })
  expect(water.at(10).enthalpy_J_kg - water.at(-11).enthalpy_J_kg).toBeCloseTo(10 * 2100 + 333_500 + 11 * 4200, 4)
  const { T_C, enthalpy, conductivityIntegral, kinks_C } = water.curve(-11, 10)
  const last = T_C.length - 1
  expect((enthalpy[last]! - enthalpy[0]!) / 1000).toBeCloseTo(10 * 2100 + 333_500 + 11 * 4200, 3)
  expect(conductivityIntegral[last]! - conductivityIntegral[0]!).toBeCloseTo(22 + 11 * 0.58, 6)
  expect(kinks_C).toEqual([-1])
})

test('a range from 0 to 1 is drawn as finely as one of 100 K', () => {
  const steep = analyticMaterial({
    id: 'steep',
    title: 'steep',
    density: 1,
    k: (T) => 1 + 4 * T * T,
    storage: { kind: 'capacity', rho_c: () => 1 },
  })
  const { T_C, conductivityIntegral } = steep.curve(0, 1)
  for (let i = 0; i + 1 < T_C.length; i++) {
    const middle = (T_C[i]! + T_C[i + 1]!) / 2
    const chord = (conductivityIntegral[i]! + conductivityIntegral[i + 1]!) / 2
    expect(Math.abs(chord - (middle + (4 / 3) * middle ** 3))).toBeLessThan(1e-5)
  }
})

test('a law of ice shares is followed at its steep end', () => {
  // phi = 1 + 1/T below −1 °C: apparent heat capacity jumps from 3.6 to 236 kJ/(kg K).
  const phi = (T: number): number => (T < -1 ? 1 + 1 / T : 0)
  const food = analyticMaterial({
    id: 'food',
    title: 'food',
    density: 1050,
    k: (T) => 0.5 + 1.1 * phi(T),
    storage: {
      kind: 'enthalpy',
      enthalpy: (T) => 1050 * (T < -1 ? 2000 * (T + 1) - 0.7 * 333_500 * phi(T) : 3600 * (T + 1)),
    },
    corners_C: [-1],
    freezes_C: -1,
    ice: phi,
  })
  const curve = food.curve(-30, 60)
  expect(curve.T_C).toContain(-1)
  for (let i = 0; i + 1 < curve.T_C.length; i++) {
    const middle = (curve.T_C[i]! + curve.T_C[i + 1]!) / 2
    const chord = (curve.enthalpy[i]! + curve.enthalpy[i + 1]!) / 2
    const slope = (curve.enthalpy[i + 1]! - curve.enthalpy[i]!) / (curve.T_C[i + 1]! - curve.T_C[i]!)
    expect(Math.abs(chord - 1050 * food.at(middle).enthalpy_J_kg) / slope).toBeLessThan(3e-4)
  }
  expect(food.at(-10).ice_share).toBeCloseTo(0.9, 12)
})
