import { describe, expect, it } from 'vitest'

import {
  clockTime,
  dateAndClock,
  dayAndClock,
  durationRange,
  durationWords,
  earlyToLate,
  hoursFrom,
  hoursWord,
  spokenMoment,
} from '../../../src/renderer/format-time.ts'

// 12 March 2027 is a Friday (Gregorian calendar).
const startsAt = '2027-03-12T16:00'

describe('moments', () => {
  it('are told by weekday and clock, to five minutes', () => {
    expect(dayAndClock(startsAt, 0)).toBe('Fri 16:00')
    expect(dayAndClock(startsAt, 141.66)).toBe('Thu 13:40')
    expect(clockTime(startsAt, 0.04)).toBe('16:00')
    expect(dayAndClock(startsAt, 31.99)).toBe('Sun 00:00')
  })

  it('get their date beyond a fortnight, on paper and for the ear', () => {
    expect(dayAndClock(startsAt, 14 * 24 + 8)).toBe('Sat 27 Mar 00:00')
    expect(dateAndClock(startsAt, 46)).toBe('Sun 14 Mar, 14:00')
    expect(spokenMoment(startsAt, 46)).toBe('Sunday 14 March 14:00, 46 hours')
  })

  it('know nothing of a change of the clocks', () => {
    // Summer time begins on 28 March 2027 in Europe; a plan's clock goes on.
    expect(dayAndClock('2027-03-27T16:00', 24)).toBe('Sun 16:00')
  })

  it('count back to hours', () => {
    expect(hoursFrom(startsAt, '2027-03-18T08:00')).toBe(136)
    expect(hoursFrom(startsAt, 'soon')).toBeNaN()
  })
})

describe('spans', () => {
  it('name the day only where it changes', () => {
    expect(earlyToLate(startsAt, 141.66, 132.25, 151.4)).toBe('04:15 to 23:25')
    expect(earlyToLate(startsAt, 141.66, 120, 151.4)).toBe('Wed 16:00 to Thu 23:25')
  })

  it('round durations to what is known', () => {
    expect([0, 0.02, 0.66, 1, 5.67, 9.99, 19.4, 33.1].map(durationWords)).toEqual([
      '0 min',
      'under 5 min',
      '40 min',
      '1 h',
      '5 h 40 min',
      '10 h',
      '19½ h',
      '33 h',
    ])
    expect(durationWords(-2)).toBe('2 h')
    expect(durationWords(Number.NaN)).toBe('–')
  })

  it('say the unit once where both are whole', () => {
    expect(durationRange(31.4, 34.6)).toBe('31½ to 34½ h')
    expect(durationRange(0.7, 1.2)).toBe('40 min to 1 h 10 min')
    expect(durationRange(3, 3.01)).toBe('3 h')
  })

  it('are spoken in hours', () => {
    expect([1, 0.5, 46, 46.4].map(hoursWord)).toEqual(['1 hour', '0.5 hours', '46 hours', '46.5 hours'])
  })
})
