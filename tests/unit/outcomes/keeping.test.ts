import { describe, expect, test } from 'vitest'
import { controlOf, isExempt } from '../../../src/core/outcomes/keeping.ts'

/* FDA Food Code 1-201.10(B), read cell by cell from tables A and B as in 25 Tex. Admin. Code 228.2(144). */

describe('table B: not packaged after heating', () => {
  const rows: readonly (readonly [aw: number, pH: number, control: 'exempt' | 'assess'])[] = [
    [0.87, 7, 'exempt'],
    [0.88, 5, 'exempt'],
    [0.88, 5.1, 'assess'],
    [0.9, 5, 'exempt'],
    [0.9, 6, 'assess'],
    [0.91, 4.6, 'exempt'],
    [0.91, 4.7, 'assess'],
    [0.92, 4.6, 'exempt'],
    [0.93, 4.19, 'exempt'],
    [0.93, 4.2, 'assess'],
    [0.99, 4.1, 'exempt'],
    [0.95, 6.5, 'assess'],
  ]
  test.each(rows)('aw %s, pH %s: %s', (aw, pH, control) => {
    expect(controlOf(aw, pH)).toBe(control)
  })
})

describe('table A: heated, then packaged', () => {
  const rows: readonly (readonly [aw: number, pH: number, control: 'exempt' | 'assess'])[] = [
    [0.92, 7, 'exempt'],
    [0.95, 5.6, 'exempt'],
    [0.95, 5.7, 'assess'],
    [0.96, 4.6, 'exempt'],
    [0.96, 4.7, 'assess'],
  ]
  test.each(rows)('aw %s, pH %s: %s', (aw, pH, control) => {
    expect(controlOf(aw, pH, true)).toBe(control)
  })
})

describe('where masses meet', () => {
  const chocolate = { aw: [0.3, 0.4] as const, pH: [5.5, 6] as const }
  const cream = { aw: [0.95, 0.98] as const, pH: [6, 6.5] as const }

  test('chocolate as such is exempt, chocolate that touches cream is not', () => {
    expect(isExempt([chocolate])).toBe(true)
    expect(isExempt([chocolate, cream])).toBe(false)
  })

  test('the upper end of what is known decides: ganache of 0.80 to 0.92 is not exempt', () => {
    expect(isExempt([{ aw: [0.8, 0.92] }])).toBe(false)
  })

  test('what is not known is not exempt', () => {
    expect(isExempt([undefined])).toBe(false)
    expect(isExempt([chocolate, undefined])).toBe(false)
    expect(isExempt([{ aw: [0.89, 0.89] }])).toBe(false)
  })
})
