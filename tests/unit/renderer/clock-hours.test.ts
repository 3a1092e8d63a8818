import { afterEach, describe, expect, test } from 'vitest'

import { clockTime, dateAndClock, dayAndClock, spokenMoment, tellBy } from '../../../src/renderer/format-time.ts'

const start = '2027-03-12T16:00'

describe('the clock of twelve hours', () => {
  afterEach(() => tellBy('24'))

  test('noon is 12 pm, midnight 12 am, and both clocks tell the same moment', () => {
    expect(clockTime(start, 20)).toBe('12:00')
    tellBy('12')
    expect(clockTime(start, 20)).toBe('12:00 pm')
    expect(clockTime(start, 8)).toBe('12:00 am')
    expect(clockTime(start, 21.5)).toBe('1:30 pm')
    expect(dayAndClock(start, 0)).toBe('Fri 4:00 pm')
    expect(dateAndClock(start, 15)).toBe('Sat 13 Mar, 7:00 am')
    expect(spokenMoment(start, 1)).toBe('Friday 12 March 5:00 pm, 1 hour')
  })
})
