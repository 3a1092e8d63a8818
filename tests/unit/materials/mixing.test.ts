import { describe, expect, test } from 'vitest'
import {
  effectiveMedium,
  levy,
  maxwellEucken,
  maxwellMulti,
  parallel,
  series,
} from '../../../src/core/materials/mixing.ts'

// Arithmetic of the printed formulas (ASHRAE Handbook-Refrigeration, Levy 1981, Landauer 1952), done apart.
const vectors = [
  {
    name: 'watery part with ice',
    kc: 0.4,
    kd: 2.3,
    v: 0.3,
    parallel: 0.97,
    series: 0.5318,
    me: 0.6704,
    em: 0.8502,
    levy: 0.7459,
    emt: 0.7328,
  },
  {
    name: 'crumb and air',
    kc: 0.4,
    kd: 0.026,
    v: 0.6,
    parallel: 0.1756,
    series: 0.04153,
    me: 0.1436,
    em: 0.06459,
    levy: 0.09311,
    emt: 0.1016,
  },
  {
    name: 'serum with fat globules',
    kc: 0.56,
    kd: 0.175,
    v: 0.4,
    parallel: 0.406,
    series: 0.2979,
    me: 0.3814,
    em: 0.3536,
    levy: 0.3677,
    emt: 0.3729,
  },
]
// The expected figures are rounded to four decimals.
const near = (value: number, expected: number) => expect(Math.abs(value - expected)).toBeLessThan(5.01e-5)

describe.each(vectors)('$name', ({ kc, kd, v, ...expected }) => {
  const parts = [
    { k: kc, share: 1 - v },
    { k: kd, share: v },
  ]
  test('parallel and series', () => {
    near(parallel(parts), expected.parallel)
    near(series(parts), expected.series)
  })
  test('Maxwell and Eucken, either part continuous', () => {
    near(maxwellEucken(kc, kd, v), expected.me)
    near(maxwellEucken(kd, kc, 1 - v), expected.em)
  })
  test('several dispersed parts: one alone is Maxwell and Eucken, split in two changes nothing', () => {
    near(maxwellMulti(kc, [{ k: kd, share: v }]), expected.me)
    near(
      maxwellMulti(kc, [
        { k: kd, share: v / 3 },
        { k: kd, share: (2 * v) / 3 },
      ]),
      expected.me,
    )
  })
  test('Levy and effective medium', () => {
    near(levy(kd, kc, v), expected.levy)
    near(effectiveMedium(kc, kd, v), expected.emt)
  })
  test('every law lies between the bounds', () => {
    const [low, high] = [series(parts), parallel(parts)]
    for (const k of [
      maxwellEucken(kc, kd, v),
      maxwellEucken(kd, kc, 1 - v),
      levy(kd, kc, v),
      effectiveMedium(kc, kd, v),
    ]) {
      expect(k).toBeGreaterThan(low)
      expect(k).toBeLessThan(high)
    }
  })
})

describe('Levy', () => {
  // Levy's own construction (1981): exchanging the parts leaves the mean.
  test('exchanging the parts changes nothing', () => {
    near(levy(2.3, 0.4, 0.3), 0.7459)
    expect(levy(2.3, 0.4, 0.3)).toBeCloseTo(levy(0.4, 2.3, 0.7), 12)
  })
  test('limits are exact and approached smoothly', () => {
    expect(levy(2.3, 0.4, 0)).toBe(0.4)
    expect(levy(2.3, 0.4, 1)).toBe(2.3)
    expect(levy(0.4, 0.4, 0.3)).toBe(0.4)
    expect(levy(2.3, 0.4, 1e-9)).toBeCloseTo(0.4, 6)
    expect(levy(2.3, 0.4, 1 - 1e-9)).toBeCloseTo(2.3, 6)
    expect(levy(0.4 * (1 + 1e-7), 0.4, 0.3)).toBeCloseTo(0.4, 6)
  })
  test('rises with the share of the better conductor', () => {
    for (let v = 0; v < 1; v += 0.01) expect(levy(2.3, 0.4, v + 0.01)).toBeGreaterThan(levy(2.3, 0.4, v))
  })
})
