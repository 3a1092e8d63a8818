import { describe, expect, it } from 'vitest'
import type { Answer, Forecast } from '../../../src/core/forecast-types.ts'
import { checksOf, curveAt } from '../../../src/core/sheet/checks.ts'

const stage = (name: string, from_h: number, to_h: number) => ({ name, from_h, to_h, endedBy: 'after_h' as const })
const answer = (at_h?: number, by_h?: number): Answer =>
  ({
    target: 'frozen',
    index: 0,
    ...(at_h === undefined ? {} : { at_h }),
    ...(by_h === undefined ? {} : { by_h }),
  }) as Answer

const forecast = (stages: Forecast['stages'], answers: readonly Answer[] = []): Forecast =>
  ({
    times_h: [0, 2, 2, 12],
    curves: { core: [80, 60, 60, 10], surface: [80, 30, 25, 5] },
    bands: { core: { low: [80, 58, 58, 8], high: [80, 63, 63, 14] } },
    stages,
    answers,
  }) as unknown as Forecast

describe('a value between the points of a curve', () => {
  it('lies on the straight line', () => expect(curveAt([0, 2, 4], [0, 10, 50], 3)).toBe(30))
  it('is that before something was done, where a moment stands twice', () =>
    expect(curveAt([0, 2, 2, 4], [80, 30, 25, 5], 2)).toBe(30))
  it('is none outside the course, and none before its layer is there', () => {
    expect(curveAt([0, 2], [1, 2], 3)).toBeUndefined()
    expect(curveAt([0, 2, 4], [null, null, 7], 1)).toBeUndefined()
    expect(curveAt([0, 2, 4], [null, null, 7], 3)).toBeUndefined()
  })
})

describe('when to measure', () => {
  it('is the end of every stage and the middle of long ones, in order, with what to expect', () => {
    const checks = checksOf(forecast([stage('Bench', 0, 2), stage('Freezer', 2, 12)]))
    expect(checks.map(({ at_h, stage: index, reason }) => [at_h, index, reason.kind])).toEqual([
      [2, 0, 'stage-end'],
      [7, 1, 'halfway'],
      [12, 1, 'stage-end'],
    ])
    expect(checks[1]!.core).toEqual({ likely_C: 35, low_C: 33, high_C: 38.5 })
    expect(checks[2]!.surface).toEqual({ likely_C: 5, low_C: 5, high_C: 5 })
  })

  it('has asked and likely moments, and of moments close together one', () => {
    const checks = checksOf(forecast([stage('Bench', 0, 2), stage('Freezer', 2, 12)], [answer(11.9, 9)]))
    expect(checks.map(({ at_h, reason }) => [at_h, reason.kind])).toEqual([
      [2, 'stage-end'],
      [7, 'halfway'],
      [9, 'asked'],
      [11.9, 'likely'],
    ])
  })

  it('leaves out what was asked for after the plan has ended', () => {
    const checks = checksOf(forecast([stage('Bench', 0, 2)], [answer(undefined, 40)]))
    expect(checks.map(({ at_h }) => at_h)).toEqual([2])
  })
})
