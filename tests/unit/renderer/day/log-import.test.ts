import { describe, expect, test } from 'vitest'

import { understand, zoneHours } from '../../../../src/renderer/day/log-import.ts'
import { bar } from '../plans.ts'

const plan = {
  ...bar,
  startsAt: '2027-03-12T16:00',
  zone: 'Europe/Vienna',
  probes: [{ name: 'heart' }, { name: 'rim' }],
}
const two = 'time;left °C;right °F\n12/03/2027 17:00;60,5;104\n12/03/2027 17:30;58;95\n'

describe('what is asked about a logger’s file', () => {
  test('columns that no heading tells are asked for, and may be left out', () => {
    expect(understand(plan, two, {})).toMatchObject({ problem: 'Say which column is which probe.', readings: [] })
    const { readings, problem } = understand(plan, two, { columns: [null, 'rim'], dayFirst: true })
    expect(problem).toBeNull()
    expect(readings).toEqual([
      { probe: 'rim', at_h: 1, C: 40 },
      { probe: 'rim', at_h: 1.5, C: 35 },
    ])
  })

  test('degrees, the order of dates and the divider can be put right', () => {
    const said = { columns: ['heart', null], dayFirst: true, fahrenheit: [true, true] }
    // 60.5 °F = 15.83 °C, by the definition of the scales
    expect(understand(plan, two, said).readings[0]?.C).toBeCloseTo(15.833, 3)
    // months first, 3 December lies long after the start
    expect(understand(plan, two, { columns: ['heart', null], dayFirst: false }).readings[0]?.at_h).toBeGreaterThan(6000)
    expect(understand(plan, two, { divider: '\t' }).problem).toMatch(/columns|time/)
  })

  test('its clock is brought to the workshop’s: by the plan’s zone, as said, and where it is fast', () => {
    const zoned = 'time,heart\n2027-03-12T16:00Z,60\n2027-03-12T16:30Z,58\n'
    // Vienna is one hour before Greenwich in winter, two in summer: Directive 2000/84/EC and Austrian law, from memory
    expect(zoneHours('Europe/Vienna', '2027-03-12T16:00')).toBe(1)
    expect(zoneHours('Europe/Vienna', '2027-07-12T16:00')).toBe(2)
    expect(zoneHours('Moon/Base', '2027-07-12T16:00')).toBeNull()
    expect(understand(plan, zoned, {}).readings[0]?.at_h).toBe(1)
    expect(understand(plan, zoned, { zone_h: 2 }).readings[0]?.at_h).toBe(2)
    expect(understand(plan, zoned, { fast_min: 6 }).readings[0]?.at_h).toBeCloseTo(0.9, 9)
  })

  test('each reading that cannot be is named, what is wrong with the whole is not', () => {
    const broken = 'minutes,heart\n0,60\n30,6000\n60,-9999\n'
    expect(understand(plan, broken, {}).problem).toMatch(/^reading 2 is 6000 °C: .*; reading 3 is −9999 °C: /)
    expect(understand(plan, 'no table', {}).problem).not.toMatch(/^(log|reading)/)
  })

  test('a file without dates may begin when it is said to', () => {
    const counted = 'minutes,heart\n0,60\n30,58\n'
    expect(understand(plan, counted, {}).readings.map(({ at_h }) => at_h)).toEqual([0, 0.5])
    expect(understand(plan, counted, { begins_h: 3 }).readings.map(({ at_h }) => at_h)).toEqual([3, 3.5])
  })
})
