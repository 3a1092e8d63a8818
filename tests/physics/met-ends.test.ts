import { describe, expect, test } from 'vitest'
import { forecast } from '../../src/core/forecast.ts'
import { parsePlan } from './met-plans.ts'

/* Stages that end when something is so that no single temperature tells: it sets by its law, at every place. */

describe.each(['quick', 'standard'] as const)('a jelly that waits until it is set, at %s', (fidelity) => {
  const waiting = forecast(parsePlan({ target: 'set', max_h: 60 }, fidelity))
  const left = forecast(parsePlan({ after_h: 60 }, fidelity))

  test('the stage ends at the very moment at which the same jelly left alone is set', () => {
    const [stage] = waiting.stages
    expect(stage!.endedBy).toBe('target')
    expect(stage!.to_h).toBeGreaterThan(2)
    // The moments of both courses lie on steps of their own: a share of a step.
    expect(Math.abs(stage!.to_h - left.answers[0]!.at_h!)).toBeLessThan(0.01 * left.answers[0]!.at_h!)
    expect(waiting.answers[0]!.answer).toBe('yes')
  })

  test('what comes after begins there, and the band of the end is that of the answer', () => {
    expect(waiting.stages[1]!.from_h).toBe(waiting.stages[0]!.to_h)
    expect(waiting.stages[1]!.to_h).toBeCloseTo(waiting.stages[0]!.to_h + 3, 6)
    const { to_early_h, to_late_h } = waiting.stages[0]!
    expect(to_early_h!).toBeLessThan(waiting.stages[0]!.to_h)
    expect(to_late_h!).toBeGreaterThan(waiting.stages[0]!.to_h)
    expect(waiting.model.energyResidual).toBeLessThan(1e-8)
  })
})

test('what never sets is waited for until the guard, and that is said', () => {
  const warm = forecast(parsePlan({ target: 'set', max_h: 5 }, 'quick', 30))
  expect(warm.stages[0]).toMatchObject({ endedBy: 'max_h' })
  expect(warm.stages[0]!.to_h).toBeCloseTo(5, 9)
  expect(warm.answers[0]!.answer).not.toBe('yes')
})

test('whichever comes first: hours before it is set', () => {
  const short = forecast(parsePlan({ target: 'set', after_h: 1 }, 'quick'))
  expect(short.stages[0]).toMatchObject({ endedBy: 'after_h', to_h: 1 })
})
