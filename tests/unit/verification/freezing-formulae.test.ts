import { describe, expect, it } from 'vitest'
import { brickDimensionality, plankBrick, plankTime } from '../../../src/core/verification/freezing-formulae.ts'

// The worked figures of the formulae stand in shared/reference/validation-cases.json, group D; here are their limits.
describe('formulae of freezing', () => {
  it.each([
    ['cube', 1 + 1e-4, 1 + 1e-4, 1 / 6, 1 / 24],
    ['square rod', 1 + 1e-4, 1e6, 1 / 4, 1 / 16],
    ['slab', 1e4, 2e4, 1 / 2, 1 / 8],
  ])('a brick becomes a %s', (_, b1, b2, P, R) => {
    const factors = plankBrick(b1, b2)
    expect(factors.P).toBeCloseTo(P, 3)
    expect(factors.R).toBeCloseTo(R, 3)
  })

  it('a sphere freezes in a third of the time of a slab', () => {
    const task = { D: 0.1, h: 20, k: 1.5, latent: 2.5e8, gap_K: 20 }
    expect(plankTime('sphere', task) / plankTime('slab', task)).toBeCloseTo(1 / 3, 12)
  })

  it('a long wide brick counts as a slab', () => {
    expect(brickDimensionality(2, 1e3, 1e3)).toBeCloseTo(1, 3)
  })
})
