import { describe, expect, it } from 'vitest'
import { questionOf } from '../../src/core/choosing/question.ts'
import { fitPlan } from '../../src/core/fitting/fit.ts'
import { planAsFitted } from '../../src/core/fitting/fitted-plan.ts'
import { dividedAt, whatHelpsNow } from '../../src/core/fitting/from-now.ts'
import { onTheDay } from '../../src/core/fitting/on-the-day.ts'
import { forecastFitted } from '../../src/core/fitting/posterior.ts'
import { forecast } from '../../src/core/forecast.ts'
import { findPlanFaults } from '../../src/core/plan/read.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { measuredOn } from '../support/measured-readings.ts'

const creams: Plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Almond cream on sponge, a hand high',
  startsAt: '2027-03-12T16:00',
  rules: ['fda-food-code-2022'],
  fidelity: 'quick',
  materials: { cream: { fixed: { k_W_mK: 0.48, rho_kg_m3: 1050, c_J_kgK: 3500 } } },
  piece: {
    shape: { kind: 'sheet', area_m2: 0.2 },
    fill: [
      { material: 'sponge-crumb', thickness_mm: 10, start_C: 20 },
      { material: 'cream', thickness_mm: 90, start_C: 75 },
    ],
  },
  stages: [
    { name: 'Rest', in: 'room-still', until: { after_h: 1 } },
    { name: 'Chill', in: { air_C: 3, h_W_m2K: 8 }, until: { after_h: 36 } },
  ],
  targets: [{ kind: 'cooled', core_C: 10, by: '2027-03-13T08:00' }],
  probes: [{ name: 'heart', y: 0.55 }],
}
/** A long half-round in a chest freezer of limited power, two-dimensional. */
const frozen: Plan = {
  ...creams,
  title: 'Lemon half-round',
  rules: [],
  piece: {
    shape: { kind: 'trough', radius_mm: 90, length_mm: 900 },
    lining: [{ material: 'sponge-crumb', thickness_mm: 9, start_C: 20 }],
    fill: [{ material: 'lemon-cream', start_C: 60 }],
  },
  stages: [
    { name: 'Chill', in: 'fridge-fan', until: { after_h: 6 } },
    { name: 'Freeze', in: 'chest-freezer', until: { after_h: 60 } },
  ],
  targets: [{ kind: 'frozen', core_C: -12, by: '2027-03-14T20:00' }],
}
const weaker = (plan: Plan): Plan => ({
  ...plan,
  stages: plan.stages.map((stage) => ({
    ...stage,
    in: { ...(typeof stage.in === 'string' ? { like: stage.in } : stage.in), measured: { film_times: 0.7 } },
  })),
})

describe.each([
  ['a layered sheet', creams, [1.5, 3, 5]],
  ['a frozen half-round', frozen, [3, 8, 12]],
] as const)('%s, measured', (_, plan, moments) => {
  const readings = measuredOn(weaker(plan), 'heart', moments, () => 0)
  const fitted = fitPlan(plan, readings)
  const asFitted = planAsFitted(plan, fitted)

  it('is written into the plan so that forecasting that gives the same course', () => {
    const [one, other] = [forecastFitted(plan, fitted), forecast(asFitted)]
    expect(findPlanFaults(asFitted)).toEqual([])
    console.log(`by the fit ${one.answers[0]!.at_h} h, by the plan as fitted ${other.answers[0]!.at_h} h`)
    // The same job, but for the range of the tables, by which their steps differ.
    expect(other.answers[0]!.at_h!).toBeCloseTo(one.answers[0]!.at_h!, 2)
    expect(one.answers[0]!.at_h!).toBeGreaterThan(forecast(plan).answers[0]!.at_h!)
  })

  it('goes on the same after it is divided at the last reading', () => {
    const whole = forecast(asFitted)
    const { plan: divided, over } = dividedAt(asFitted, moments.at(-1)!, whole.stages)
    expect(findPlanFaults(divided)).toEqual([])
    expect(divided.stages).toHaveLength(3)
    expect(over).toBe(2)
    // Steps begin anew where the plan is divided: within a hundredth.
    expect(Math.abs(forecast(divided).answers[0]!.at_h! / whole.answers[0]!.at_h! - 1)).toBeLessThan(0.01)
  })
})

describe('what helps from now on', () => {
  const plan: Plan = { ...creams, readings: measuredOn(weaker(creams), 'heart', [2, 4, 6], () => 0) }
  const help = whatHelpsNow(plan, questionOf(plan, {}))

  it('begins where the day stands', () => {
    const [answer] = onTheDay(plan).answers
    expect(answer).toMatchObject({ state: 'behind', needsChange: true })
    expect(Math.abs(help.now.at_h! / answer!.now.at_h! - 1)).toBeLessThan(0.01)
  })

  it('changes nothing that is over, and each change is what forecasting the changed plan gives', () => {
    const ids = help.ranked.map(({ changes }) => changes[0])
    expect(ids).toContain('fan')
    for (const past of ['thinner', 'two-pieces', 'pour-cooler', 'start-earlier', 'two-pours'])
      expect(ids).not.toContain(past)
    for (const { plan: changed, outcome } of help.ranked.slice(0, 3)) {
      expect(changed.stages[0]).toEqual(help.ranked[0]!.plan.stages[0])
      expect(changed.stages[1]!.until).toEqual({ after_h: 5 })
      expect(forecast(changed).answers[0]!.at_h).toBe(outcome.at_h)
    }
    expect(help.ranked[0]!.gain_h!).toBeGreaterThan(1)
  })

  it('refuses readings that fit nothing', () => {
    const wrong = [2, 3, 4, 5].map((at_h) => ({ probe: 'heart', at_h, C: 20 + 10 * at_h }))
    expect(() => whatHelpsNow({ ...plan, readings: wrong }, questionOf(plan, {}))).toThrow(/no plausible piece/)
  })
})
