import { describe, expect, test } from 'vitest'
import { keepRuns } from '../../src/core/deciding/band-runs.ts'
import { forecast } from '../../src/core/forecast.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'

/* While a number is turned, the bands of the forecast before stand for those of the new plan. */

const bar = (thickness_mm: number): Plan => ({
  format: 'thickset-plan',
  version: 1,
  title: 'Custard bar',
  startsAt: '2027-03-12T16:00',
  rules: ['fda-food-code-2022'],
  fidelity: 'quick',
  dimensions: 2,
  piece: {
    shape: { kind: 'bar', width_mm: 300, length_mm: 1200 },
    fill: [{ material: 'egg-custard', thickness_mm, start_C: 70 }],
  },
  stages: [
    { name: 'Bench', in: { air_C: 20, h_W_m2K: 12 }, until: { after_h: 4 } },
    { name: 'Freeze', in: { air_C: -20, h_W_m2K: 12 }, until: { after_h: 44 } },
  ],
  targets: [{ kind: 'frozen', core_C: -10 }],
})

describe('bands carried along', () => {
  const runs = keepRuns()
  const before = forecast(bar(120), {}, runs.own(bar(120)))
  const after = bar(126)
  const carried = forecast(after, {}, runs.carried(after))
  const own = forecast(after)

  test('say so, and leave the course as it is', () => {
    expect([before, carried, own].map(({ model }) => model.bands)).toEqual(['own', 'carried', 'own'])
    expect(carried.answers[0]!.at_h).toBe(own.answers[0]!.at_h)
    expect(carried.curves.core).toBeDefined()
  })

  test('are as wide as the own ones within a fifth, for a thickness changed by a twentieth', () => {
    const width = ({ answers: [answer] }: typeof own): number => answer!.late_h! - answer!.early_h!
    expect(Math.abs(width(carried) / width(own) - 1)).toBeLessThan(0.2)
    expect(width(carried)).not.toBe(width(own))
  })

  test('are not carried to another kind of plan', () => {
    const warmer: Plan = { ...after, stages: [after.stages[0]!, { ...after.stages[1]!, in: 'chest-freezer' }] }
    expect(forecast(warmer, {}, runs.carried(warmer)).model.bands).toBe('own')
  })
})
