import { expect, test } from 'vitest'
import { forecast } from '../../src/core/forecast.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'

const plan: Plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Custard, a hand high',
  startsAt: '2027-03-12T16:00',
  fidelity: 'quick',
  piece: {
    shape: { kind: 'sheet', area_m2: 0.2 },
    fill: [{ material: 'egg-custard', thickness_mm: 90, start_C: 70 }],
  },
  stages: [{ name: 'Chill', in: 'blast-chiller', until: { after_h: 8 } }],
  targets: [{ kind: 'cooled', core_C: 5 }],
}

// A laptop that sleeps in the middle of a computation, or a clock that is set: whoever hands a clock in, it tells how
// long the work took and nothing else.
test.each([
  ['sleeps for days', (call: number) => call * 3e8],
  ['goes back', (call: number) => -call * 1e6],
  ['stands still', () => 0],
])('a clock that %s changes no number of a forecast', (_what, now) => {
  const of = (clock: () => number) => {
    const { film: _film, model, ...rest } = forecast(plan, { now: clock, report: () => undefined })
    const { wall_ms, ...others } = model
    expect(Number.isFinite(wall_ms)).toBe(true)
    return { ...rest, model: others }
  }
  let call = 0
  expect(of(() => now(call++))).toEqual(of(() => 0))
})
