import { afterEach, describe, expect, test } from 'vitest'

import { shownAt } from '../../../src/core/plan/clock.ts'
import { calendarText } from '../../../src/core/words/calendar.ts'
import { clockShow } from '../../../src/main/cli/clock-show.ts'
import { clockMarks, days, midnights, nights } from '../../../src/renderer/course/clock-axis.ts'
import { dayAndClock, followClock, hoursFrom } from '../../../src/renderer/format-time.ts'
import { clockChangesOf } from '../../../src/renderer/plan-clock.ts'
import { bar } from './plans.ts'

// Summer time in the European Union: forward at 01:00 UTC on the last Sunday of March, back on that of October.
// Source: Directive 2000/84/EC, articles 2 and 3.
const spring = { ...bar, startsAt: '2027-03-27T16:00', zone: 'Europe/Vienna' }
const autumn = { ...bar, startsAt: '2027-10-30T16:00', zone: 'Europe/Vienna' }
const follow = (plan: typeof spring): void => followClock(plan.startsAt, clockChangesOf(plan))

afterEach(() => followClock('', []))

describe('a night in which the clock is moved', () => {
  test('forward: 02:00 is 03:00, and every later moment is told by the new clock', () => {
    expect(clockChangesOf(spring)[0]).toEqual({ at: '2027-03-28T02:00', by_min: 60 })
    follow(spring)
    expect([9, 9.5, 10, 16].map((at_h) => dayAndClock(spring.startsAt, at_h))).toEqual([
      'Sun 01:00',
      'Sun 01:30',
      'Sun 03:00',
      'Sun 09:00',
    ])
    expect(hoursFrom(spring.startsAt, '2027-03-28T09:00')).toBe(16)
    // that Sunday has 23 hours
    const sunday = days(spring.startsAt, 0, 40).find(({ names }) => names.at(-1) === 'Sun')
    expect((sunday?.to_h ?? 0) - (sunday?.from_h ?? 0)).toBe(23)
    // from 22:00 to 06:00 there are seven hours
    expect(nights(spring.startsAt, 0, 20)).toEqual([{ from_h: 6, to_h: 13 }])
  })

  test('back: an hour comes twice, and midnights stand where the clock shows them', () => {
    follow(autumn)
    expect([10, 10.5, 11, 11.5, 12].map((at_h) => dayAndClock(autumn.startsAt, at_h))).toEqual([
      'Sun 02:00',
      'Sun 02:30',
      'Sun 02:00',
      'Sun 02:30',
      'Sun 03:00',
    ])
    expect(midnights(autumn.startsAt, 0, 60)).toEqual([8, 33, 57])
    expect(hoursFrom(autumn.startsAt, '2027-10-31T06:00')).toBe(15)
    const marks = clockMarks(autumn.startsAt, 0, 24, 900).map((at_h) => dayAndClock(autumn.startsAt, at_h).slice(-2))
    expect(new Set(marks)).toEqual(new Set(['00']))
  })

  test('the terminal and the calendar tell the same moments', () => {
    const clock_changes = [...clockChangesOf(spring)]
    expect(clockShow({ startsAt: spring.startsAt, clock_changes }).moment(16)).toBe('at 09:00 on Sun 28 Mar')
    const entry = { at_h: 16, minutes: 10, title: 'Look', text: '' }
    expect(calendarText('x', spring.startsAt, [entry], 0, clock_changes)).toContain('DTSTART:20270328T090000')
    expect(shownAt(spring.startsAt, 3600, clock_changes)).toBe(Date.UTC(2027, 2, 27, 17) / 1000)
  })

  test('a plan without a zone, or of another start, goes by its hours alone', () => {
    follow(spring)
    expect(dayAndClock('2027-03-27T10:00', 22)).toBe('Sun 08:00')
    expect(clockChangesOf({ ...bar, zone: 'Moon/Base' })).toEqual([])
  })
})
