import fc from 'fast-check'
import { describe, expect, test } from 'vitest'

import { readTyped } from '../../../src/renderer/typed.ts'
import * as units from '../../../src/renderer/units.ts'

const { metricUnits, shownQuantity, shownUnit, toShown, toStored } = units
const wide = { low: -1e9, high: 1e9 }
const imperial: units.Units = { temperature: 'F', length: 'in', mass: 'lb' }

const read = (
  text: string,
  quantity: units.Quantity,
  settings = metricUnits,
  range: { low: number; high: number } = wide,
) => readTyped(text, quantity, shownUnit(quantity, settings), range)

const value = (text: string, quantity: units.Quantity, settings = metricUnits): number => {
  const got = read(text, quantity, settings)
  if (!got.ok) throw new Error(got.problem)
  return got.value
}

describe('what is typed', () => {
  // exact by definition: 1 in = 25.4 mm, 1 ft = 12 in, 1 lb = 0.45359237 kg (international agreement of 1959);
  // 32 °F = 0 °C, 212 °F = 100 °C
  test.each([
    ['4 in', units.length, 101.6],
    ['4"', units.length, 101.6],
    ['4 1/2 in', units.length, 114.3],
    ['4½ in', units.length, 114.3],
    ['½ in', units.length, 12.7],
    ['12,5', units.length, 12.5],
    ['12.5 cm', units.length, 125],
    ['1 ft 2 in', units.length, 355.6],
    ['.5 m', units.length, 500],
    ['41 F', units.temperature, 5],
    ['212°F', units.temperature, 100],
    ['-40 F', units.temperature, -40],
    ['−18', units.temperature, -18],
    ['273.15 K', units.temperature, 0],
    ['90 min', units.duration, 1.5],
    ['1 d 6 h', units.duration, 30],
    ['2:30', units.duration, 2.5],
    ['1 lb', units.mass, 0.45359237],
  ] as const)('%s', (text, quantity, stored) => {
    expect(value(text, quantity)).toBeCloseTo(stored, 9)
  })

  test('a bare number is in the unit that is shown', () => {
    expect(value('41', units.temperature, imperial)).toBeCloseTo(5, 9)
    expect(value('2', units.length, imperial)).toBeCloseTo(50.8, 9)
    expect(value('2', units.length)).toBe(2)
  })

  test.each([
    ['', units.length],
    ['abc', units.length],
    ['12 furlongs', units.length],
    ['1.2.3', units.length],
    ['4 kg', units.length],
    ['NaN', units.temperature],
    ['Infinity', units.temperature],
    ['1e999', units.length],
    ['5 °C 3 °C', units.temperature],
    ['4/0 in', units.length],
    ['--4', units.length],
  ] as const)('%j is refused with what would be right', (text, quantity) => {
    const got = read(text, quantity)
    expect(got.ok).toBe(false)
    expect(got.ok ? '' : got.problem).toMatch(/like|can be typed/)
  })

  test('a comma that could mean thousands is asked about, never guessed', () => {
    const got = read('1,200', units.length)
    expect(got.ok ? '' : got.problem).toContain('1200 or 1.200')
  })

  test('out of range says what would fit, in the unit that is shown', () => {
    const got = readTyped('90 cm', units.length, shownUnit(units.length, metricUnits), {
      low: 0,
      high: 200,
      above: true,
    })
    expect(got).toEqual({ ok: false, problem: '900 mm is too much; 200 mm at most' })
    expect(
      readTyped('0', units.length, shownUnit(units.length, metricUnits), { low: 0, high: 200, above: true }),
    ).toEqual({
      ok: false,
      problem: '0 mm is too little; more than 0 mm would do',
    })
  })
})

describe('units', () => {
  test('toggling to and fro never moves what is stored', () => {
    fc.assert(
      fc.property(fc.double({ min: -60, max: 350, noNaN: true }), (T_C) => {
        const there = shownUnit(units.temperature, imperial)
        expect(toStored(toShown(T_C, there), there)).toBeCloseTo(T_C, 9)
      }),
      { seed: 20270312 },
    )
  })

  test('what is shown can be typed again', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(units.length, units.temperature, units.mass),
        fc.constantFrom(metricUnits, imperial),
        fc.integer({ min: -500, max: 5000 }),
        (quantity, settings, tenths) => {
          const one = shownUnit(quantity, settings)
          const stored = toStored(tenths / 10, one)
          const again = readTyped(shownQuantity(stored, one), quantity, one, wide)
          expect(again.ok && again.value).toBeCloseTo(stored, 6)
        },
      ),
      { seed: 20270313 },
    )
  })
})
