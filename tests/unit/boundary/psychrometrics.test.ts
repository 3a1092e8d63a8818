import fc from 'fast-check'
import * as psychrolib from 'psychrolib'
import { describe, expect, test } from 'vitest'
import {
  dewPoint,
  type Humidity,
  moistAirEnthalpy,
  vapourPressure,
  wetBulb,
} from '../../../src/core/boundary/psychrometrics.ts'
import { humidityRatio, PRESSURE } from '../../../src/core/materials/vapour.ts'

psychrolib.SetUnitSystem(psychrolib.SI)
const W = (humidity: Humidity, T_C: number): number => humidityRatio(vapourPressure(humidity, T_C))

describe('wet bulb', () => {
  // Real-gas humid air (open property library): within 0.11 K; the balance itself to the digits of its own table.
  test.each([
    [20, { relative: 0.5 }, 13.78, 13.75],
    [25, { relative: 0.5 }, 17.89, 17.85],
    [120, { kg_kg: 0.1 }, 57.43, 57.36],
    [180, { kg_kg: 0.01 }, 45.65, 45.68],
    [180, { kg_kg: 0.03 }, 50.29, 50.3],
    [180, { kg_kg: 0.1 }, 60.86, 60.83],
    [180, { kg_kg: 0.3 }, 74.54, 74.47],
    [220, { kg_kg: 0.03 }, 53.37, 53.42],
    [220, { kg_kg: 0.3 }, 75.55, 75.51],
  ] as const)('%d °C, %o', (T, humidity, balance, realGas) => {
    const found = wetBulb(T, W(humidity, T))
    expect(Math.abs(found - balance)).toBeLessThan(0.006)
    expect(Math.abs(found - realGas)).toBeLessThan(0.11)
  })

  test('agrees with a general psychrometric library wherever that holds', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -20, max: 60, noNaN: true }),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        (T, relative) => {
          const own = wetBulb(T, W({ relative }, T))
          const other = psychrolib.GetTWetBulbFromRelHum(T, relative, PRESSURE)
          // At 0 °C the iced and the wet bulb differ: either may be found there.
          if (Math.abs(other) < 0.6) return
          expect(Math.abs(own - other)).toBeLessThan(0.02)
        },
      ),
      { seed: 8, numRuns: 200 },
    )
  })

  test('holds in an oven, where that library gives back the dry bulb', () => {
    expect(Math.abs(wetBulb(180, 0.03) - 50.29)).toBeLessThan(0.01)
    const other = psychrolib.GetTWetBulbFromHumRatio(180, 0.03, PRESSURE)
    expect(other).toBeGreaterThan(170)
  })

  test('is never above the dry bulb, nor below the dew point, up to 300 °C', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 300, noNaN: true }),
        fc.double({ min: 1e-4, max: 0.5, noNaN: true }),
        (T, humid) => {
          const dew = dewPoint(vapourPressure({ kg_kg: humid }, T))
          if (dew >= T) return
          const bulb = wetBulb(T, humid)
          expect(bulb).toBeLessThanOrEqual(T + 1e-9)
          expect(bulb).toBeGreaterThan(dew - 0.01)
          expect(bulb).toBeLessThan(100)
        },
      ),
      { seed: 9, numRuns: 300 },
    )
  })

  test('of saturated air is its temperature', () => {
    for (const T of [2, 20, 60, 90]) expect(wetBulb(T, W({ relative: 1 }, T))).toBeCloseTo(T, 3)
  })

  test('thinner air has its own', () => {
    // General psychrometric library at 92 kPa.
    const relative = 0.52
    const own = wetBulb(25, humidityRatio(vapourPressure({ relative }, 25), 92000), 92000)
    expect(Math.abs(own - psychrolib.GetTWetBulbFromRelHum(25, relative, 92000))).toBeLessThan(0.01)
  })
})

test('dew point and enthalpy as in the library', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -30, max: 90, noNaN: true }),
      fc.double({ min: 0.05, max: 1, noNaN: true }),
      (T, relative) => {
        const vapour = vapourPressure({ relative }, T)
        const other = psychrolib.GetTDewPointFromRelHum(T, relative)
        expect(Math.abs(dewPoint(vapour) - other)).toBeLessThan(0.02)
        const enthalpy = psychrolib.GetMoistAirEnthalpy(T, humidityRatio(vapour))
        expect(Math.abs(moistAirEnthalpy(T, humidityRatio(vapour)) - enthalpy)).toBeLessThan(1)
      },
    ),
    { seed: 10, numRuns: 200 },
  )
})
