import { describe, expect, test } from 'vitest'

import { writePlan } from '../../../src/core/plan/write.ts'
import { newPlan } from '../../../src/renderer/new-plan.ts'
import { readText } from '../../../src/renderer/plan-text.ts'

const begun = newPlan(new Date(2027, 2, 12, 15, 20))

describe('a plan as text', () => {
  test('a new plan is one that can be computed, and starts at the next full hour', () => {
    expect(begun.startsAt).toBe('2027-03-12T16:00')
    expect(readText(writePlan(begun))).toEqual({ ok: true, plan: begun, notes: [] })
  })

  test('a new plan begun late in the evening starts the next day', () => {
    expect(newPlan(new Date(2027, 11, 31, 23, 5)).startsAt).toBe('2028-01-01T00:00')
  })

  test('a plan whose fields don’t go together is opened all the same, to be mended', () => {
    const lining = [{ material: 'sponge-crumb', thickness_mm: 900, start_C: 20 }]
    const plan = { ...begun, piece: { ...begun.piece, lining } }
    expect(readText(writePlan(plan))).toEqual({ ok: true, plan, notes: [] })
  })

  test('what is no plan is refused with everything that is wrong', () => {
    for (const text of ['', '{', '[]', '{"format":"thickset-plan"}', 'null']) {
      const got = readText(text)
      expect(got.ok, text).toBe(false)
      expect(got.ok ? [] : got.faults.length).toBeGreaterThan(0)
    }
  })
})
