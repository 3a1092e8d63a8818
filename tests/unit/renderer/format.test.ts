import { describe, expect, test } from 'vitest'

import { showIn } from '../../../src/renderer/format.ts'

const metric = showIn({ temperature: 'C', length: 'mm', mass: 'kg' }, '2027-03-12T16:00')
const imperial = showIn({ temperature: 'F', length: 'in', mass: 'lb' }, '2027-03-12T16:00')

describe('numbers for people', () => {
  test('temperatures to a tenth, with a true minus and never minus zero', () => {
    expect(metric.temperature(-12.84)).toBe('−12.8 °C')
    expect(metric.temperature(-0.04)).toBe('0.0 °C')
    expect(imperial.temperature(5)).toBe('41.0 °F')
  })

  test('a difference converts without the offset', () => {
    expect(metric.difference(5)).toBe('5.0 K')
    expect(imperial.difference(5)).toBe('9.0 °F')
  })

  test('lengths and masses in the chosen unit', () => {
    expect(metric.length(0.103)).toBe('103 mm')
    expect(imperial.length(0.1016)).toBe('4 in')
    expect(imperial.mass(4.5359237)).toBe('10.0 lb')
    expect(metric.mass(2.345)).toBe('2.35 kg')
  })

  test('moments by weekday and clock, rounded to five minutes', () => {
    expect(metric.moment(45.98)).toBe('Sun 14:00')
    expect(metric.duration(19.4)).toBe('19½ h')
    expect(metric.duration(-5.7)).toBe('−5 h 40 min')
  })
})
