import { afterEach, describe, expect, test } from 'vitest'

import { tellBy } from '../../../src/renderer/format-time.ts'
import { momentWords, readMoment } from '../../../src/renderer/typed-moment.ts'

// 12 March 2027 is a Friday (Gregorian calendar).
const near = '2027-03-12T16:00'
const moment = (text: string) => readMoment(text, 'datetime-local', near)
const time = (text: string) => readMoment(text, 'time', near)

afterEach(() => tellBy('24'))

describe('a moment as it is typed', () => {
  test.each([
    ['2027-03-13T07:30', '2027-03-13T07:30'],
    ['2027-03-13 7:30', '2027-03-13T07:30'],
    ['13 Mar 2027, 7:30 pm', '2027-03-13T19:30'],
    ['Sat 13 March, 12 am', '2027-03-13T00:00'],
    ['13.3.2027 07.30', '2027-03-13T07:30'],
    ['Mon 6:05', '2027-03-15T06:05'],
    ['friday 12 pm', '2027-03-12T12:00'],
    ['9:00', '2027-03-12T09:00'],
  ])('%s', (text, local) => expect(moment(text)).toBe(local))

  test.each(['', '13', '30 Feb 2027, 9:00', '3/4/2027 9:00', '13 pm', '25:00', 'soon 9:00', '12 Mars 9:00'])(
    'none is "%s"',
    (text) => expect(moment(text)).toBeNull(),
  )

  test('a time of day by either clock', () => {
    expect(['7:05', '07:05', '7:05 am', '7 p.m.', '19h05'].map(time)).toEqual([
      '07:05',
      '07:05',
      '07:05',
      '19:00',
      '19:05',
    ])
    expect(time('Sat 7:05')).toBeNull()
  })

  test.each(['24', '12'] as const)('what the %s-hour clock writes is read again', (clock) => {
    tellBy(clock)
    for (const local of ['2027-03-12T00:00', '2027-03-12T12:05', '2027-12-31T23:55']) {
      expect(moment(momentWords('datetime-local', local))).toBe(local)
      expect(time(momentWords('time', local))).toBe(local.slice(-5))
    }
    expect(momentWords('time', '16:00')).toBe(clock === '24' ? '16:00' : '4:00 pm')
  })
})
