import { expect, test } from 'vitest'
import { tableMaterial } from '../../../src/core/materials/table.ts'

const ice = tableMaterial({
  id: 'water',
  title: 'water',
  rho: 1000,
  T_C: [-40, 0, 0, 100],
  enthalpy_J_kg: [-84_000, 0, 333_500, 753_500],
  k: [2.2, 2.2, 0.58, 0.68],
})

test('properties are those of the straight lines', () => {
  expect(ice.at(-20)).toMatchObject({ k: 2.2, c: 2100, enthalpy_J_kg: -42_000 })
  expect(ice.at(50).k).toBeCloseTo(0.63, 12)
  expect(ice.at(50).c).toBeCloseTo(4200, 9)
  expect(ice.validity_C).toEqual([-40, 100])
})

test('two equal temperatures make a jump of the enthalpy there', () => {
  const { T_C, enthalpy, conductivityIntegral, kinks_C } = ice.curve(-30, 60)
  const first = T_C.indexOf(0)
  expect(T_C[first + 1]).toBe(0)
  expect(enthalpy[first + 1]! - enthalpy[first]!).toBeCloseTo(1000 * 333_500, 3)
  expect(kinks_C).toEqual([0])
  // ∫k over the frozen part 30 · 2.2, over the liquid (0.58 + 0.64)/2 · 60.
  const total = conductivityIntegral[T_C.length - 1]! - conductivityIntegral[0]!
  expect(Math.abs(total - (66 + 36.6))).toBeLessThan(1e-6)
})

test('beyond its ends the last heat capacity and conductivity go on', () => {
  expect(ice.at(130).k).toBeCloseTo(0.68, 12)
  expect(ice.at(130).enthalpy_J_kg).toBeCloseTo(753_500 + 30 * 4200, 3)
  expect(ice.at(-50).enthalpy_J_kg).toBeCloseTo(-84_000 - 21_000, 6)
})
