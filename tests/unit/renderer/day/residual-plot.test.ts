import { describe, expect, test } from 'vitest'

import type { FittedReading } from '../../../../src/core/fitting/fit-types.ts'
import {
  probeMarkers,
  residualRows,
  residualScale,
  residualSentence,
  signedDifference,
} from '../../../../src/renderer/day/residual-plot.ts'
import { showIn } from '../../../../src/renderer/format.ts'
import { metricUnits } from '../../../../src/renderer/units.ts'

const reading = (at_h: number, residual_K: number, more: Partial<FittedReading> = {}): FittedReading => ({
  probe: 'heart',
  at_h,
  C: 40 + residual_K,
  count: 1,
  before_C: 41,
  expected_C: 40,
  residual_K,
  usual: residual_K / 0.5,
  weight: 1,
  outlier: false,
  ...more,
})

const startsAt = '2027-03-12T16:00'
const readings = [
  reading(1, 0.4),
  reading(2, -0.7),
  reading(3, 0.2, { probe: 'rim' }),
  reading(4, 6.3, { outlier: true, weight: 0 }),
]

describe('measured less computed over time', () => {
  test('the scale is even on both sides, in round steps, and holds every reading', () => {
    const { reach_K, ticks_K, usual_K } = residualScale(readings, metricUnits)
    expect(ticks_K).toEqual([-10, -5, 0, 5, 10])
    expect(reach_K).toBeGreaterThan(10)
    // twice the 0.5 K that each of these was divided by
    expect(usual_K).toBeCloseTo(1, 9)
  })

  test('in °F its steps are round in °F, and a difference has no offset', () => {
    const ticks = residualScale(readings, { ...metricUnits, temperature: 'F' }).ticks_K
    // 6.3 K = 11.34 °F, by the definition of the scales
    expect(ticks.map((tick) => Math.round(tick * 1.8 * 1e6) / 1e6)).toEqual([-15, -10, -5, 0, 5, 10, 15])
    expect(signedDifference(6.3, { ...metricUnits, temperature: 'F' })).toBe('+11.3')
  })

  test('every probe has a sign of its own; a sentence and a table say the same', () => {
    expect([...probeMarkers(readings)]).toEqual([
      ['heart', 'ring'],
      ['rim', 'square'],
    ])
    const show = showIn(metricUnits, startsAt)
    const sentence = residualSentence(readings, residualScale(readings, metricUnits), startsAt, show)
    expect(sentence).toBe(
      'Measured less computed: 3 of 4 readings within 1.0 K, as readings scatter. 1 strays by 6.3 K at Fri 20:00.',
    )
    expect(residualRows(readings, startsAt, metricUnits).map(({ off, remark }) => `${off} ${remark}`)).toEqual([
      '+0.4 ',
      '−0.7 ',
      '+0.2 ',
      '+6.3 strays, left out',
    ])
  })
})
