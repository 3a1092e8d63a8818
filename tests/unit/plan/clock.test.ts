import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { clockMoment, localSeconds, nextAfter, secondsOfDay, sinceStart } from '../../../src/core/plan/clock.ts'

const h = 3600

describe('dates as on the calendar', () => {
  test.each([
    ['2027-03-12T16:00', '2027-03-13T07:30', 15.5],
    // Leap years by the Gregorian rule: 2028 and 2000 have a 29 February, 2027 and 2100 have none.
    ['2028-02-28T00:00', '2028-03-01T00:00', 48],
    ['2027-02-28T00:00', '2027-03-01T00:00', 24],
    ['2000-02-28T12:00', '2000-03-01T12:00', 48],
    ['2100-02-28T12:00', '2100-03-01T12:00', 24],
    ['2027-12-31T23:00', '2028-01-01T01:00', 2],
    ['2027-03-12T16:00:30', '2027-03-12T16:01:00', 30 / 3600],
    // Whatever the clocks do that night: hours of the wall clock, 24 a day.
    ['2027-03-28T00:00', '2027-03-29T00:00', 24],
    ['2027-03-13T07:30', '2027-03-12T16:00', -15.5],
  ])('%s to %s', (start, end, hours) => expect(sinceStart(start, end)).toBeCloseTo(hours * h, 9))

  test.each([
    '2027-02-29T10:00',
    '2027-13-01T10:00',
    '2027-04-31T10:00',
    '2027-03-12T24:00',
    '2027-03-12T10:60',
    'soon',
  ])('%s is on no calendar', (local) => expect(localSeconds(local)).toBeNull())

  test('a time of day', () => {
    expect(secondsOfDay('07:30')).toBe(7.5 * h)
    expect(secondsOfDay('24:00')).toBeNull()
    expect(secondsOfDay('7:30')).toBeNull()
  })
})

describe('what a clock means', () => {
  const startsAt = '2027-03-12T16:00'

  test('a time of day: the next one, tomorrow if it has passed, and again every day', () => {
    expect(clockMoment(startsAt, '18:30')).toEqual({ first: 2.5 * h, every: 24 * h })
    expect(clockMoment(startsAt, '07:00')).toEqual({ first: 15 * h, every: 24 * h })
    expect(clockMoment(startsAt, '16:00')).toEqual({ first: 24 * h, every: 24 * h })
  })

  test('a date and time: that once', () => {
    expect(clockMoment(startsAt, '2027-03-14T07:00')).toEqual({ first: 39 * h })
    expect(clockMoment(startsAt, '2027-02-30T07:00')).toBeNull()
  })

  test('the next moment lies later, by less than a day for a time of day', () => {
    const minute = fc.integer({ min: 0, max: 24 * 60 - 1 })
    const say = (m: number) => `${String(Math.floor(m / 60)).padStart(2, '0')}:${String(m % 60).padStart(2, '0')}`
    fc.assert(
      fc.property(minute, minute, fc.double({ min: 0, max: 1e6, noNaN: true }), (start, clock, time) => {
        const moment = clockMoment(`2027-03-12T${say(start)}`, say(clock))!
        const next = nextAfter(moment, time)!
        expect(next).toBeGreaterThan(time)
        expect(next - time).toBeLessThanOrEqual(24 * h)
        // Read back from the start, it is the time of day that was asked.
        expect((next / 60 + start - clock) % (24 * 60)).toBeCloseTo(0, 6)
      }),
      { seed: 20270312 },
    )
    expect(nextAfter({ first: 10 }, 10)).toBeNull()
  })
})
