import { describe, expect, it } from 'vitest'

import { clockMarks, days, hourStep, hourTicks, midnights, nights } from '../../../../src/renderer/course/clock-axis.ts'
import { degreeLabel, temperatureAxis, ticksBeside } from '../../../../src/renderer/course/temperature-axis.ts'

// 12 March 2027 is a Friday (Gregorian calendar).
const startsAt = '2027-03-12T16:00'

describe('the clock axis', () => {
  it('has a tick at each midnight between its ends', () => {
    expect(midnights(startsAt, 0, 60)).toEqual([8, 32, 56])
    expect(midnights('2027-03-12T00:00', 0, 48)).toEqual([24])
  })

  it('names the days from edge to edge', () => {
    const named = days(startsAt, 0, 60)
    expect(named.map((day) => day.names[2])).toEqual(['Fri', 'Sat', 'Sun', 'Mon'])
    expect(named[2]).toEqual({ from_h: 32, to_h: 56, names: ['Sun 14 Mar', 'Sun 14', 'Sun'] })
  })

  it('darkens 22:00 to 06:00 and cuts nights at the ends', () => {
    expect(nights(startsAt, 0, 36)).toEqual([
      { from_h: 6, to_h: 14 },
      { from_h: 30, to_h: 36 },
    ])
    expect(nights('2027-03-12T02:00', 0, 10)).toEqual([{ from_h: 0, to_h: 4 }])
  })

  it('marks clock hours where the course is shorter than two days', () => {
    expect(clockMarks(startsAt, 0, 6, 600)).toEqual([0, 1, 2, 3, 4, 5, 6])
    expect(clockMarks(startsAt, 0, 60, 600)).toEqual([8, 32, 56])
  })

  it('steps hours so that their numbers stay apart', () => {
    expect(hourStep(0, 164, 586, 60)).toBe(24)
    expect(hourTicks(0, 164, 24)).toEqual([0, 24, 48, 72, 96, 120, 144])
    expect(hourTicks(0, 1, 0.25)).toEqual([0, 0.25, 0.5, 0.75, 1])
  })
})

describe('the temperature axis', () => {
  it('has round ticks in °C and leaves a margin', () => {
    const axis = temperatureAxis(-18, 80, 'C', 310)
    expect(axis.ticks.map((tick) => tick.label)).toEqual(['−20', '0', '20', '40', '60', '80'])
    expect(axis.low_C).toBeLessThan(-18)
    expect(axis.high_C).toBeGreaterThan(80)
  })

  it('has round ticks in °F, at their places in °C', () => {
    const axis = temperatureAxis(-18, 80, 'F', 310)
    expect(axis.ticks.map((tick) => tick.label)).toEqual(['0', '25', '50', '75', '100', '125', '150', '175'])
    expect(axis.ticks[2]!.T_C).toBeCloseTo(10, 9)
  })

  it('makes room for the limits of the danger zone', () => {
    const axis = temperatureAxis(-18, 80, 'C', 310)
    expect(ticksBeside(axis, [5, 60], 310).map((tick) => tick.label)).toEqual(['−20', '0', '20', '40', '80'])
    expect(ticksBeside(axis, [5, 60], 120).map((tick) => tick.label)).not.toContain('0')
  })

  it('prints limits in the reader’s degrees', () => {
    expect([degreeLabel(5, 'C'), degreeLabel(60, 'C'), degreeLabel(5, 'F'), degreeLabel(60, 'F')]).toEqual([
      '5',
      '60',
      '41',
      '140',
    ])
    expect(degreeLabel(-20, 'F')).toBe('−4')
  })
})
