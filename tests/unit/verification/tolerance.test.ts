import { describe, expect, it } from 'vitest'
import type { Case, CaseOutput } from '../../../src/core/verification/case-schema.ts'
import { toleranceOf } from '../../../src/core/verification/tolerance.ts'

const pair = { abs_K: 0.1, default_grid_abs_K: 0.3, rel_time: 0.003, default_grid_rel_time: 0.01 }
const front = { abs_K: 0.5, rel_front: 0.01, abs_front_cells: 1 }
const allowed = (tolerance: object, output: Partial<CaseOutput>, fidelity: 'standard' | 'fine', size = 0) =>
  toleranceOf(
    { tolerance } as Case,
    { quantity: 'temperature', value: size, ...output } as CaseOutput,
    fidelity,
    size,
    () => 0.002,
  )

describe('a tolerance', () => {
  it('takes the pair by fidelity', () => {
    expect(allowed(pair, { unit: 'degC' }, 'standard')).toBeCloseTo(0.3, 12)
    expect(allowed(pair, { unit: 'degC' }, 'fine')).toBeCloseTo(0.1, 12)
    expect(allowed(pair, { unit: 's' }, 'standard', 1000)).toBeCloseTo(10, 2)
    expect(allowed(pair, { unit: 's' }, 'fine', 1000)).toBeCloseTo(3, 2)
  })

  it('lets an output’s own go before the case’s', () => {
    expect(allowed(pair, { unit: 'degC', tolerance: { abs_K: 2 } }, 'fine')).toBeCloseTo(2, 12)
  })

  it('allows a front one cell at standard, its share at fine', () => {
    expect(allowed(front, { quantity: 'front_position', unit: 'm' }, 'standard', 0.05)).toBeCloseTo(0.002, 8)
    expect(allowed(front, { quantity: 'front_position', unit: 'm' }, 'fine', 0.05)).toBeCloseTo(0.0005, 8)
  })

  it('adds nothing but half a unit of the seventh digit', () => {
    expect(allowed({ rel: 1e-9 }, { unit: '-' }, 'fine', 0.1666667)).toBeCloseTo(5e-8, 9)
  })

  it('is missing where the case says nothing that fits', () => {
    expect(allowed({ abs_K: 1 }, { unit: '-' }, 'fine', 1)).toBeUndefined()
  })
})
