import { describe, expect, it } from 'vitest'
import {
  crossings,
  type History,
  harmonic,
  maximum,
  slopeAt,
  timeWithin,
  valueAt,
} from '../../../src/core/verification/history.ts'

const sampled = (f: (t: number) => number, t: readonly number[]): History => ({ t, value: t.map(f) })
const uneven = [0, 1, 3, 4, 6, 9, 10, 12, 13, 16, 18, 20]

describe('a history', () => {
  it('is exact for a cubic at any moment', () => {
    const f = (t: number) => 2 - t + 0.3 * t ** 2 - 0.01 * t ** 3
    const history = sampled(f, uneven)
    for (const t of [0, 0.4, 5, 11.7, 19.9, 20]) {
      expect(valueAt(history, t)).toBeCloseTo(f(t), 9)
      expect(slopeAt(history, t)).toBeCloseTo(-1 + 0.6 * t - 0.03 * t ** 2, 9)
    }
  })

  it('does not look across a sudden change', () => {
    const history = { t: [0, 1, 2, 3, 3, 4, 5, 6], value: [0, 1, 2, 3, 10, 9, 8, 7] }
    expect(valueAt(history, 2.5)).toBeCloseTo(2.5, 12)
    expect(valueAt(history, 3.5)).toBeCloseTo(9.5, 12)
  })

  it('finds crossings in each direction', () => {
    const history = sampled(
      (t) => Math.sin(t / 3),
      Array.from({ length: 61 }, (_, i) => i / 3),
    )
    expect(crossings(history, 0.5, 'rising')[0]).toBeCloseTo(3 * Math.asin(0.5), 3)
    expect(crossings(history, 0.5, 'falling')[0]).toBeCloseTo(3 * (Math.PI - Math.asin(0.5)), 3)
    expect(crossings(history, 0.5)).toHaveLength(2)
    expect(crossings(history, 2)).toEqual([])
  })

  it('counts the time within a band', () => {
    const history = sampled((t) => 80 - 4 * t, uneven)
    expect(timeWithin(history, 20, 60)).toBeCloseTo(10, 9)
    expect(timeWithin(history, 0, 100)).toBeCloseTo(20, 9)
  })

  it('finds the top between samples', () => {
    const top = maximum(sampled((t) => 5 - (t - 7.3) ** 2, uneven))
    expect(top.at).toBeCloseTo(7.3, 9)
    expect(top.value).toBeCloseTo(5, 9)
  })

  it('finds amplitude and lag of a swing', () => {
    const t = Array.from({ length: 201 }, (_, i) => i * 30)
    const found = harmonic(
      sampled((at) => 4 + 2 * Math.cos((2 * Math.PI * (at - 400)) / 2000), t),
      2000,
    )
    expect(found.mean).toBeCloseTo(4, 6)
    expect(found.amplitude).toBeCloseTo(2, 5)
    expect(found.lag).toBeCloseTo(400, 2)
  })
})
