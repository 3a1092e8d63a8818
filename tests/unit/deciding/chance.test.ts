import { describe, expect, it } from 'vitest'
import { latinHypercube } from '../../../src/core/deciding/latin-hypercube.ts'
import { normalQuantile } from '../../../src/core/deciding/normal.ts'
import { quantileOf } from '../../../src/core/deciding/quantiles.ts'
import { randomOf, seeded, shuffled } from '../../../src/core/deciding/random.ts'
import { rankRegression, ranksOf } from '../../../src/core/deciding/rank-regression.ts'

describe('generator', () => {
  it('gives the first numbers of the published algorithm from state 1, 2, 3, 4', () => {
    // Blackman and Vigna, xoshiro128** 1.1: the first two by hand from the published algorithm, all four as in the vector
    // that implementations test themselves by (from memory).
    const random = randomOf([1, 2, 3, 4])
    expect(Array.from({ length: 4 }, () => random())).toEqual([11520, 0, 5927040, 70819200])
  })

  it('repeats itself with its seed, and differs with another', () => {
    const row = (seed: number) => {
      const random = seeded(seed)
      return Array.from({ length: 20 }, () => random())
    }
    expect(row(7)).toEqual(row(7))
    expect(row(7)).not.toEqual(row(8))
  })

  it('shuffles without losing any', () => {
    expect([...shuffled(100, seeded(3))].sort((a, b) => a - b)).toEqual(Array.from({ length: 100 }, (_, i) => i))
  })
})

describe('normal quantile', () => {
  // Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.5 (from memory).
  it.each([
    [0.5, 0],
    [0.75, 0.67448975],
    [0.9, 1.28155157],
    [0.95, 1.64485363],
    [0.975, 1.95996398],
    [0.99, 2.32634787],
    [0.995, 2.5758293],
    [0.999, 3.09023231],
    [0.9999, 3.71901649],
  ])('of %d is %d', (share, z) => {
    expect(normalQuantile(share)).toBeCloseTo(z, 7)
    expect(normalQuantile(1 - share)).toBeCloseTo(-z, 7)
  })
})

describe('Latin hypercube', () => {
  it('draws once from every slice of equal probability, of every input', () => {
    const runs = 50
    const edges = Array.from({ length: runs - 1 }, (_, i) => normalQuantile((i + 1) / runs))
    const draws = latinHypercube(runs, 4, 11)
    for (let input = 0; input < 4; input++) {
      const slices = draws.map((draw) => edges.filter((edge) => edge < draw[input]!).length)
      expect(slices.sort((a, b) => a - b)).toEqual(Array.from({ length: runs }, (_, i) => i))
    }
  })
})

describe('quantiles', () => {
  it('lie straight between sorted values, as type 7 of Hyndman and Fan (1996)', () => {
    // The default of R: quantile(c(1, 2, 4, 8), c(.05, .5, .9)) is 1.15, 3, 6.8 (by hand from their formula).
    const sorted = Float64Array.of(1, 2, 4, 8)
    expect(quantileOf(sorted, 0.05)).toBeCloseTo(1.15, 12)
    expect(quantileOf(sorted, 0.5)).toBe(3)
    expect(quantileOf(sorted, 0.9)).toBeCloseTo(6.8, 12)
  })

  it('are infinite where they fall on runs that never get there', () => {
    expect(quantileOf(Float64Array.of(1, 2, Number.POSITIVE_INFINITY), 0.95)).toBe(Number.POSITIVE_INFINITY)
  })
})

describe('rank regression', () => {
  it('gives ties the middle of their ranks', () => {
    expect([...ranksOf([3, 1, 3, 2, Number.POSITIVE_INFINITY])]).toEqual([3.5, 1, 3.5, 2, 5])
  })

  it('shares the variance out as the inputs have it, whatever monotone curve lies over them', () => {
    // y = f(3 a − 2 b + c) with independent a, b, c: squares of the coefficients go as 9 : 4 : 1 (of their sum 14),
    // nearly so for ranks.
    const draws = latinHypercube(2000, 4, 5)
    const values = Float64Array.from(draws, ([a, b, c]) => Math.exp(3 * a! - 2 * b! + c!))
    const found = rankRegression(draws)(values)!
    expect(found.drivers.map(({ input }) => input)).toEqual([0, 1, 2, 3])
    const [a, b, c, d] = found.drivers.map(({ coefficient }) => coefficient)
    expect(a).toBeCloseTo(Math.sqrt(9 / 14), 1)
    expect(b).toBeCloseTo(-Math.sqrt(4 / 14), 1)
    expect(c).toBeCloseTo(Math.sqrt(1 / 14), 1)
    expect(Math.abs(d!)).toBeLessThan(0.03)
    expect(found.R2).toBeGreaterThan(0.95)
  })

  it('says by R² when what drives a number is no sum of the inputs', () => {
    const draws = latinHypercube(2000, 2, 5)
    const values = Float64Array.from(draws, ([a, b]) => a! * b!)
    expect(rankRegression(draws)(values)!.R2).toBeLessThan(0.05)
  })

  it('says nothing of what does not vary', () => {
    expect(rankRegression(latinHypercube(50, 2, 1))(new Float64Array(50).fill(3))).toBeUndefined()
  })
})
