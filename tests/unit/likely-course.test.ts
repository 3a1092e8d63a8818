import { expect, test } from 'vitest'

import { ownRuns } from '../../src/core/deciding/band-runs.ts'
import { forecast } from '../../src/core/forecast.ts'
import type { LikelyCourse } from '../../src/core/forecast-types.ts'
import { likelyCourse } from '../../src/core/likely-course.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'

const plan: Plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Custard',
  startsAt: '2027-03-12T16:00',
  fidelity: 'quick',
  piece: {
    shape: { kind: 'sheet', area_m2: 0.2 },
    fill: [{ material: 'egg-custard', thickness_mm: 60, start_C: 70 }],
  },
  stages: [
    { name: 'Chill', in: 'fridge-fan', until: { core_C: 8 } },
    { name: 'Freeze', in: 'blast-freezer', until: { after_h: 6 } },
  ],
  targets: [{ kind: 'cooled', core_C: 10 }],
}

const straight = (times: readonly number[], values: readonly (number | null)[], at: number): number => {
  const after = Math.max(
    1,
    times.findIndex((time) => time >= at),
  )
  const [a, b, from, to] = [values[after - 1]!, values[after]!, times[after - 1]!, times[after]!]
  return to === from ? b : a + ((b - a) * (at - from)) / (to - from)
}

test('the likely course is the course of the forecast, told before its bands and without any moment', () => {
  let likely: LikelyCourse | undefined
  const whole = forecast(plan, {}, (resolved, nominal, ...how) => {
    likely = likelyCourse(resolved, nominal)
    return ownRuns(plan)(resolved, nominal, ...how)
  })
  expect(Object.keys(likely?.curves ?? {})).toEqual(Object.keys(whole.curves))
  // both are within 0.05 K of the computed course, each by its own moments
  for (const at of [0.3, 1.1, 2.4, whole.times_h.at(-1)! - 0.4])
    for (const name of ['core', 'mean'])
      expect(
        Math.abs(
          straight(likely!.times_h, likely!.curves[name]!, at) - straight(whole.times_h, whole.curves[name]!, at),
        ),
      ).toBeLessThan(0.1)
  expect(likely?.stages).toEqual(whole.stages.map(({ name, from_h, to_h }) => ({ name, from_h, to_h })))
  expect(whole.stages[0]?.to_late_h).toBeGreaterThan(whole.stages[0]!.to_h)
  expect(JSON.stringify(likely)).not.toMatch(/early|late|answers|low"|high"/)
})
