import { describe, expect, test } from 'vitest'
import { PlanError } from '../../../src/core/errors.ts'
import { forecast } from '../../../src/core/forecast.ts'
import { changesOfZone, clockMoment, clockMoves, nextAfter, sinceStart } from '../../../src/core/plan/clock.ts'
import { findPlanFaults } from '../../../src/core/plan/read.ts'
import type { Plan } from '../../../src/core/plan/schema/plan.ts'
import { withZone, type ZoneClock } from '../../../src/core/plan/zone.ts'
import { aPlan } from './a-plan.ts'

/* Directive 2000/84/EC: forward by an hour at 01:00 UTC on the last Sunday of March, back on the last of October. */
const spring = [{ at: '2027-03-28T02:00', by_min: 60 }]
const autumn = [{ at: '2027-10-31T03:00', by_min: -60 }]
const h = 3600
const zoneClock: ZoneClock = (zone) => {
  const format = new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short', timeStyle: 'medium' })
  return (moment) => format.format(moment * 1000)
}

describe('hours across a change of the clock', () => {
  test('a night in spring is an hour shorter than its clock says, one in autumn an hour longer', () => {
    expect(sinceStart('2027-03-27T16:00', '2027-03-28T07:00', spring)).toBe(14 * h)
    expect(sinceStart('2027-03-27T16:00', '2027-03-28T01:30', spring)).toBe(9.5 * h)
    expect(sinceStart('2027-10-30T16:00', '2027-10-31T07:00', autumn)).toBe(16 * h)
    expect(clockMoves('2027-03-27T16:00', spring)).toEqual([{ at: 10 * h, by_min: 60 }])
    expect(clockMoves('2027-03-29T16:00', spring)).toEqual([])
  })

  test('a time of day comes 23 or 25 hours after the last one on that day, 24 on all others', () => {
    const seven = clockMoment('2027-03-26T16:00', '07:00', spring)!
    const first = 15 * h
    expect(nextAfter(seven, 0)).toBe(first)
    // Saturday 07:00, Sunday 07:00 (the short day), Monday 07:00
    const sunday = nextAfter(seven, first)!
    expect(sunday - first).toBe(23 * h)
    expect(nextAfter(seven, sunday)! - sunday).toBe(24 * h)
  })
})

describe('a plan that names its zone', () => {
  test('the changes are those of the directive; a plan of its own changes keeps them', () => {
    const plan = (startsAt: string): Plan => aPlan({ startsAt, zone: 'Europe/Vienna' })
    expect(withZone(plan('2027-03-20T16:00'), zoneClock).clock_changes).toEqual(spring)
    expect(withZone(plan('2027-10-20T16:00'), zoneClock).clock_changes).toEqual(autumn)
    expect(withZone(plan('2027-06-01T16:00'), zoneClock).clock_changes).toEqual([])
    const own = { ...plan('2027-03-20T16:00'), clock_changes: [] }
    expect(withZone(own, zoneClock)).toBe(own)
    expect(() => withZone(aPlan({ zone: 'Moon/Base' }), zoneClock)).toThrow(PlanError)
  })

  test('a zone half an hour off finds its changes too', () => {
    // Lord Howe Island: half an hour back on the first Sunday of April at 02:00 (IANA tz database, from memory).
    const shown = zoneClock('Australia/Lord_Howe')
    const offset = (moment: number) => (Date.parse(`${shown(moment).replace(' ', 'T')}Z`) / 1000 - moment) / 60
    expect(changesOfZone('2026-03-30T12:00', 30, offset)).toEqual([{ at: '2026-04-05T02:00', by_min: -30 }])
  })
})

test('a stage that crosses the change says so, and ends when the clock shows its time', { timeout: 30_000 }, () => {
  const plan: Plan = {
    ...aPlan({ startsAt: '2027-03-27T16:00', clock_changes: spring }),
    fidelity: 'quick',
    stages: [
      { name: 'Evening', in: { air_C: 20, h_W_m2K: 8 }, until: { core_C: 40, max_h: 2 } },
      { name: 'Night', in: { air_C: 4, h_W_m2K: 8 }, until: { clock: '07:00' } },
    ],
    targets: [],
  }
  expect(findPlanFaults(plan)).toEqual([])
  const { stages, model } = forecast(plan)
  expect(stages[1]!.to_h).toBeCloseTo(14, 9)
  expect(model.notes.filter(({ code }) => code.startsWith('clock-'))).toMatchObject([
    { code: 'clock-forward', values: { stage: 'Night', at_h: 10, within_h: 1 } },
  ])
  expect(findPlanFaults({ ...plan, clock_changes: [{ at: '2027-02-30T02:00', by_min: 60 }] })[0]?.path).toBe(
    'clock_changes[0].at',
  )
})
