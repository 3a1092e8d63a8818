import { describe, expect, it } from 'vitest'
import { Cancelled, PlanError } from '../../src/core/errors.ts'
import { fitReadings } from '../../src/core/fitting/fit.ts'
import { keepArrival, keepPromise, onTheDay } from '../../src/core/fitting/on-the-day.ts'
import { forecast } from '../../src/core/forecast.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { measuredOn, scatter } from '../support/measured-readings.ts'

const plan: Plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Almond cream, a hand high',
  startsAt: '2027-03-12T16:00',
  fidelity: 'quick',
  materials: { cream: { fixed: { k_W_mK: 0.48, rho_kg_m3: 1050, c_J_kgK: 3500 } } },
  piece: { shape: { kind: 'sheet', area_m2: 0.2 }, fill: [{ material: 'cream', thickness_mm: 90, start_C: 75 }] },
  stages: [{ name: 'Chill', in: { air_C: 3, h_W_m2K: 12 }, until: { after_h: 30 } }],
  targets: [{ kind: 'cooled', core_C: 10, by: '2027-03-13T08:00' }],
  probes: [{ name: 'heart' }, { name: 'low', y: 0.1 }],
}
const chilled = (air: object): Plan => ({ ...plan, stages: [{ ...plan.stages[0]!, in: air }] })
const stronger = chilled({ air_C: 3, h_W_m2K: 16 })
const weaker = chilled({ air_C: 3, h_W_m2K: 8 })
const hours = (from: number, to: number, step: number): number[] =>
  Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, i) => from + i * step)
const whole = hours(0.5, 12, 0.25)

describe('a fit', () => {
  it('finds a film a third stronger than the plan has it, within its span', () => {
    const found = fitReadings(plan, measuredOn(stronger, 'heart', whole, scatter(1)))
    const film = found.derived.find(({ kind }) => kind === 'film of a face')!
    console.log(`film × ${film.value!.toFixed(3)}, ${film.low!.toFixed(3)} to ${film.high!.toFixed(3)}; true × 1.333`)
    expect(found.explained).toBe(true)
    expect(film.determined).toBe('well')
    expect(film.low!).toBeLessThan(4 / 3)
    expect(film.high!).toBeGreaterThan(4 / 3)
    // Scatter of 0.5 K over 47 readings: what is left of them is that scatter.
    expect(found.after_K).toBeGreaterThan(0.35)
    expect(found.after_K).toBeLessThan(0.65)
    expect(found.before_K).toBeGreaterThan(2)
  })

  it('finds that nothing differs where nothing does', () => {
    const found = fitReadings(plan, measuredOn(plan, 'heart', whole, scatter(2)))
    for (const { title, value, low, high, unit } of [...found.factors, ...found.derived]) {
      if (value === undefined) continue
      expect(low!, title).toBeLessThan(unit === 'factor' ? 1 : 0)
      expect(high!, title).toBeGreaterThan(unit === 'factor' ? 1 : 0)
    }
    expect(found.notes).toEqual([])
  })

  it('claims nothing that the readings do not determine', () => {
    // Two readings before the heart has felt anything: only where it began can be told.
    const found = fitReadings(
      plan,
      measuredOn(stronger, 'heart', [0.05, 0.1], () => 0),
    )
    const claimed = found.factors.filter(({ value }) => value !== undefined)
    expect(claimed.map(({ kind }) => kind)).toEqual(['start temperature'])
    expect(found.derived.every(({ value, determined }) => value === undefined && determined === 'not')).toBe(true)
    // A place where nothing changes any more says nothing but what the air is.
    const late = fitReadings(
      plan,
      measuredOn(plan, 'heart', [28, 29, 30], () => 0),
    )
    expect(late.factors.filter(({ value }) => value !== undefined).map(({ kind }) => kind)).not.toContain(
      'conductivity',
    )
  })

  it('tells an outlier from the others, and hardly heeds it', () => {
    const good = measuredOn(stronger, 'heart', whole, scatter(3))
    const bad = good.with(20, { ...good[20]!, C: good[20]!.C + 25 })
    const [one, other] = [fitReadings(plan, good), fitReadings(plan, bad)]
    expect(one.readings.some(({ outlier }) => outlier)).toBe(false)
    expect(other.readings.flatMap(({ outlier }, i) => (outlier ? [i] : []))).toEqual([20])
    expect(other.notes.map(({ code }) => code)).toContain('fit-outliers')
    expect(other.derived[0]!.value!).toBeCloseTo(one.derived[0]!.value!, 1)
    expect(other.explained).toBe(true)
  })

  it('warns of readings that no plausible piece gives, and takes nothing from them', () => {
    // The cabinet stood open: it warms again.
    const wrong = hours(1, 8, 0.5).map((at_h) => ({ probe: 'heart', at_h, C: 40 + 4 * at_h }))
    const found = fitReadings(plan, wrong)
    expect(found.explained).toBe(false)
    expect(found.notes[0]!.code).toBe('fit-unexplained')
    const day = onTheDay({ ...plan, readings: wrong })
    expect(day.answers[0]!.state).toBe('unknown')
    expect(day.answers[0]!.now.at_h).toBeCloseTo(forecast(plan).answers[0]!.at_h!, 1)
  })

  it('sees that a probe was moved, and counts the longer part', () => {
    const noise = scatter(4)
    const heart = measuredOn(stronger, 'heart', hours(0.5, 8, 0.25), noise)
    const low = measuredOn(stronger, 'low', hours(8.25, 11, 0.25), noise).map((one) => ({ ...one, probe: 'heart' }))
    const found = fitReadings(plan, [...heart, ...low])
    const moved = found.notes.find(({ code }) => code === 'fit-probe-moved')!
    expect(moved.values.at_h).toBeCloseTo(8.25, 6)
    const film = found.derived.find(({ kind }) => kind === 'film of a face')!
    expect(film.low!).toBeLessThan(4 / 3)
    expect(film.high!).toBeGreaterThan(4 / 3)
  })

  it("finds how far a logger's clock is off, by a change of stage", () => {
    const [stage] = plan.stages
    const two: Plan = {
      ...plan,
      stages: [
        { name: 'Rest', in: { air_C: 60, h_W_m2K: 12 }, until: { after_h: 3 } },
        { ...stage!, in: { air_C: 0, h_W_m2K: 25 }, until: { after_h: 5 } },
      ],
    }
    const noise = scatter(5, 0.2)
    const late = measuredOn(two, 'low', hours(2, 5, 0.05), noise).map((one) => ({ ...one, at_h: one.at_h + 0.1 }))
    const ask = { logged: true, noise_K: 0.2 }
    const clock = fitReadings(two, late, {}, ask).factors.find(({ kind }) => kind === 'clock')!
    console.log(`clock ${clock.value!.toFixed(1)} min, ${clock.low!.toFixed(1)} to ${clock.high!.toFixed(1)}; true −6`)
    // Told 6 min late: the true moment is 6 min before.
    expect(clock.determined).toBe('well')
    expect(clock.low!).toBeLessThan(-6)
    expect(clock.high!).toBeGreaterThan(-6)
    // Without such a change a late clock and a warmer pour look alike.
    const smooth = fitReadings(plan, measuredOn(plan, 'heart', whole, noise), {}, ask)
    expect(smooth.factors.find(({ kind }) => kind === 'clock')!.determined).not.toBe('well')
  })

  it('moves only the factors that it may', () => {
    const found = fitReadings(plan, measuredOn(stronger, 'heart', whole, scatter(1)), {}, { factors: ['film'] })
    expect(found.factors.map(({ kind }) => kind)).toEqual(['film'])
    expect(found.factors[0]!.value!).toBeCloseTo(4 / 3, 1)
  })

  it('names what it cannot use, and stops when asked to', () => {
    expect(() => fitReadings(plan, [{ probe: 'rim', at_h: 1, C: 20 }])).toThrow(PlanError)
    expect(() => fitReadings(plan, [{ probe: 'heart', at_h: 100, C: 20 }])).toThrow(/within the course/)
    expect(() =>
      fitReadings(
        plan,
        measuredOn(plan, 'heart', [2], () => 0),
        { stopped: () => true },
      ),
    ).toThrow(Cancelled)
  })

  it('gives the same numbers again', () => {
    const readings = measuredOn(stronger, 'heart', [2, 4, 6], scatter(6))
    expect(fitReadings(plan, readings)).toEqual(fitReadings(plan, readings))
  })
})

describe('on the day', () => {
  const day = (truth: Plan, moments: readonly number[]): Plan => ({
    ...keepPromise(plan),
    readings: measuredOn(truth, 'heart', moments, () => 0),
  })
  const truly = (truth: Plan): number => forecast(truth).answers[0]!.at_h!

  it.each([
    ['ahead', stronger],
    ['behind', weaker],
    ['on course', plan],
  ] as const)('says %s, and when it will be ready now', (state, truth) => {
    const { answers, now_h } = onTheDay(day(truth, [2, 4, 6]))
    const [{ now, promised, later_h, ...answer }] = answers as [(typeof answers)[0]]
    console.log(
      `${state}: promised ${promised.at_h!.toFixed(1)} h, now ${now.at_h!.toFixed(1)} h (${now.early_h!.toFixed(1)} to ${now.late_h!.toFixed(1)}), truly ${truly(truth).toFixed(1)} h`,
    )
    expect(answer.state).toBe(state)
    expect(now_h).toBe(6)
    expect(later_h).toBeCloseTo(now.at_h! - promised.at_h!, 9)
    expect(now.early_h!).toBeLessThan(truly(truth))
    expect(now.late_h!).toBeGreaterThan(truly(truth))
    expect(now.late_h! - now.early_h!).toBeLessThan(0.5 * (promised.late_h! - promised.early_h!))
  })

  it('points to changes where it comes too late, and to none where it is in time', () => {
    expect(onTheDay(day(weaker, [2, 4, 6])).answers[0]).toMatchObject({ kept: 'no', needsChange: true })
    expect(onTheDay(day(stronger, [2, 4, 6])).answers[0]).toMatchObject({ kept: 'surely', needsChange: false })
  })

  it('narrows with every reading', () => {
    const widths = [[], [2], [2, 4], [2, 4, 6, 8]].map((moments) => {
      const { now } = onTheDay(day(plan, moments)).answers[0]!
      return now.late_h! - now.early_h!
    })
    expect(widths).toEqual(widths.toSorted((a, b) => b - a))
  })

  it('says nothing of how it stands before anything is measured', () => {
    const { fit: found, answers } = onTheDay(plan)
    expect(found).toBeNull()
    expect(answers[0]).toMatchObject({ state: 'unknown', why: { code: 'day-no-readings' } })
  })

  it('keeps what was promised, and what came beside it', () => {
    const kept = keepPromise(plan)
    expect(keepPromise({ ...kept, piece: stronger.piece })).toMatchObject({ promised: kept.promised })
    const arrived = keepArrival({ ...kept, readings: day(weaker, [2]).readings! }, 0, 15)
    const { came_h, promised, why } = onTheDay(arrived).answers[0]!
    expect(came_h).toBe(15)
    expect(promised.at_h).toBe(kept.promised![0]!.at_h)
    expect(why).toMatchObject({ code: 'day-came', values: { by_h: 15 - promised.at_h! } })
  })
})
