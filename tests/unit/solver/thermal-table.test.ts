import { expect, test } from 'vitest'
import { getMaterial } from '../../../src/core/materials/index.ts'
import { buildThermalTable, placeInTable, temperatureAt } from '../../../src/core/solver/thermal-table.ts'

const water = getMaterial('water')
const HIGH_C = 80

/* A corner of the curve falls on a node of the table: wherever the asked range begins, the table holds all of it. */
test.each([20, 1, 0.1, 0.05, 0.02, 0.005, 1e-4, 1e-7])(
  'a table that begins %s K under a corner reaches both ends',
  (K) => {
    const low_C = water.curve(-60, HIGH_C).kinks_C[0]! - K
    const table = buildThermalTable([water], low_C, HIGH_C)
    const { offset, intervals, enthalpyAtOffset } = table.parts[0]!
    expect(temperatureAt(table, offset)).toBeLessThanOrEqual(low_C + 1e-9)
    expect(temperatureAt(table, offset + intervals - 1e-9)).toBeGreaterThanOrEqual(HIGH_C - 1e-3)
    expect(Number.isFinite(enthalpyAtOffset)).toBe(true)
    for (const T_C of [low_C + K / 2, 25, HIGH_C - 1])
      expect(temperatureAt(table, placeInTable(table, 0, T_C))).toBeCloseTo(T_C, 6)
  },
)
