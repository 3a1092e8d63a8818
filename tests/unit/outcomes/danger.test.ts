import fc from 'fast-check'
import { expect, test } from 'vitest'
import { judgeDanger, timeBetween } from '../../../src/core/outcomes/danger.ts'
import { handCourse } from './hand-course.ts'

test('time between two temperatures along straight lines, by hand', () => {
  // 70 → 0 °C in 7 h: 60 at 1 h, 5 at 6.5 h.
  expect(timeBetween([0, 7], [70, 0], 5, 60)).toBeCloseTo(5.5, 12)
  // Up and down within: 0 → 20 in 2 h (5 at 0.5 h), 20 → 0 in 4 h (5 at 5 h).
  expect(timeBetween([0, 2, 6], [0, 20, 0], 5, 60)).toBeCloseTo(1.5 + 3, 12)
  // Exactly on a limit is outside it.
  expect(timeBetween([0, 3], [5, 5], 5, 60)).toBe(0)
  expect(timeBetween([0, 3], [60, 60], 5, 60)).toBe(0)
  expect(timeBetween([0, 3], [30, 30], 5, 60)).toBe(3)
  // A jump takes no time; a place that isn't there yet has none.
  expect(timeBetween([0, 1, 1, 2], [80, 80, 20, 20], 5, 60)).toBeCloseTo(1, 12)
  expect(timeBetween([0, 1, 2], [Number.NaN, 20, 20], 5, 60)).toBeCloseTo(1, 12)
})

test('below, within and above add up to the whole', () => {
  // Half degrees off the limits, since a stretch exactly on a limit is in no part.
  const span = fc.double({ min: 0.01, max: 5, noNaN: true })
  const temperature = fc.integer({ min: -30, max: 95 }).map((T) => T + 0.5)
  const samples = fc.array(fc.tuple(span, temperature), { minLength: 2, maxLength: 12 })
  fc.assert(
    fc.property(samples, (steps) => {
      let sum = 0
      const t = steps.map(([span]) => (sum += span))
      const T_C = steps.map(([, T]) => T)
      const parts = [timeBetween(t, T_C, -1e9, 5), timeBetween(t, T_C, 5, 60), timeBetween(t, T_C, 60, 1e9)]
      expect(parts[0]! + parts[1]! + parts[2]!).toBeCloseTo(t[t.length - 1]! - t[0]!, 9)
    }),
    { seed: 20270312 },
  )
})

test('the longest stay is not the core when the core waits above the zone', () => {
  // Rim: 85 → 60 °C in 1 h, then in the zone for 9 h. Heart: down to 60 °C only as the record ends.
  const course = handCourse({
    hours: [0, 1, 10],
    air_C: 4,
    places: [
      { y: 0.02, T_C: [85, 60, 20] },
      { y: 0.5, T_C: [85, 85, 60 - 1e-9] },
    ],
  })
  const danger = judgeDanger(course, { x: 0.5, y: 0.5, z: 0.5 })
  expect(danger).toMatchObject({ low_C: 5, high_C: 60, where: { y: 0.02 }, layer: 'fill[0]' })
  expect(danger.longest_h).toBeCloseTo(9, 9)
  expect(danger.core_h).toBeLessThan(1e-6)
})

test('a poured layer counts from its pour', () => {
  const course = handCourse({
    hours: [0, 2, 2, 5],
    air_C: 4,
    places: [
      { y: 0.2, T_C: [3, 3, 3, 3] },
      { y: 0.8, layer: 'stages[1].start[0]', T_C: [50, 20] },
    ],
  })
  const danger = judgeDanger(course, { x: 0.5, y: 0.2, z: 0.5 })
  expect(danger).toMatchObject({ layer: 'stages[1].start[0]', core_h: 0 })
  expect(danger.longest_h).toBeCloseTo(3, 9)
})
