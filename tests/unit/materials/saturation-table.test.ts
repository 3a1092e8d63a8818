import { describe, expect, it } from 'vitest'
import { saturationAt } from '../../../src/core/materials/saturation-table.ts'
import { saturationPressure } from '../../../src/core/materials/vapour.ts'

describe('the table of saturation pressures', () => {
  it('is the formula to a hundred-millionth, on both sides of freezing', () => {
    for (let T_C = -99.99; T_C < 200; T_C += 0.0137)
      expect(Math.abs(saturationAt(T_C) / saturationPressure(T_C) - 1), `${T_C} °C`).toBeLessThan(1e-8)
  })

  it('is the formula itself beyond its ends', () => {
    for (const T_C of [-60.1, -99, 150.1, 199]) expect(saturationAt(T_C)).toBe(saturationPressure(T_C))
  })

  // ASHRAE Handbook, Fundamentals (2017), chapter 1, table 3: 611.2 Pa at 0 °C, 2338.9 Pa at 20 °C, 101 418 Pa at 100 °C
  // (from memory).
  it.each([
    [20, 2338.9],
    [100, 101_418],
  ])('at %s °C gives what is tabulated', (T_C, pressure) => {
    expect(Math.abs(saturationAt(T_C) / pressure - 1)).toBeLessThan(5e-4)
  })
})
