import { describe, expect, test } from 'vitest'
import { helpInParts, whatWouldHelp } from '../../src/core/choosing/help.ts'
import { findLimit, limitInParts } from '../../src/core/choosing/limit.ts'
import { oneNumber } from '../../src/core/choosing/one-number.ts'
import { look, questionOf } from '../../src/core/choosing/question.ts'
import { Cancelled } from '../../src/core/errors.ts'
import { doneHere, type InParts } from '../../src/core/in-parts.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'

/*
 * A search done in parts: however many of them are done in a turn, and in whatever order, the same comes out; and one
 * that is stopped tells what was known by then.
 */

const plan: Plan = {
  format: 'thickset-plan',
  version: 1,
  title: 'Custard',
  startsAt: '2027-03-12T16:00',
  fidelity: 'quick',
  rules: ['fda-food-code-2022'],
  piece: { shape: { kind: 'sheet', area_m2: 0.2 }, fill: [{ material: 'egg-custard', thickness_mm: 90, start_C: 75 }] },
  stages: [{ name: 'Chill', in: { air_C: 3, h_W_m2K: 12 }, until: { after_h: 20 } }],
  targets: [{ kind: 'cooled', core_C: 10, by: '2027-03-13T08:00' }],
}
const question = questionOf(plan, {})
const thickness = oneNumber(plan, 'fill[0].thickness_mm')
const range = { end: 'greatest', from: 30, to: 150 } as const

/** Does the parts of a turn from the last to the first, and none any more after some. */
function backwards<Part, Done, Result>(work: InParts<Part, Done, Result>, one: (part: Part) => Done, most = 1e9) {
  let next = work.next([])
  let done = 0
  let widest = 0
  while (next.done !== true) {
    const { parts } = next.value
    widest = Math.max(widest, parts.length)
    const found = parts.toReversed().map((part) => (done++ < most ? one(part) : undefined))
    next = work.next(found.toReversed())
  }
  return { result: next.value, done, widest }
}

describe('the furthest value', () => {
  const alone = findLimit(thickness, question, range)

  test.each([1, 2, 3, 8])('is the same when %i values are looked at in a turn', (atOnce) => {
    const { result } = backwards(limitInParts(thickness, question, range, atOnce), look)
    expect(result).toEqual(alone)
  })

  test('comes in fewer turns the more are looked at in one', () => {
    const turns = [1, 4].map((atOnce) => {
      let count = 0
      const work = limitInParts(thickness, question, range, atOnce)
      for (let next = work.next([]); next.done !== true; next = work.next(next.value.parts.map((part) => look(part))))
        count++
      return count
    })
    expect(turns[1]).toBeLessThan(turns[0]!)
  })

  test('is known so far when it is stopped after its scan, and not at all before', () => {
    const { result } = backwards(limitInParts(thickness, question, range), look, 16)
    expect(result).toMatchObject({ unfinished: true, scan: alone.scan })
    expect(result.value).toBeLessThanOrEqual(alone.value!)
    expect(result.value).toBeGreaterThan(alone.value! - 10)
    expect(result).not.toHaveProperty('sure')
    const inBand = backwards(limitInParts(thickness, question, range), look, 25).result
    expect(inBand).toMatchObject({ unfinished: true, value: alone.value })
    expect(() => backwards(limitInParts(thickness, question, range), look, 12)).toThrow(Cancelled)
    expect(() => doneHere(limitInParts(thickness, question, range), look, { stopped: () => true })).toThrow(Cancelled)
  })
})

describe('what would help', () => {
  const alone = whatWouldHelp(plan, question)

  test.each([1, 2, 5])('is the same when %i pairs are tried in a turn', (atOnce) => {
    const { result } = backwards(helpInParts(plan, question, {}, atOnce), look)
    expect(result).toEqual(alone)
    expect(result).not.toHaveProperty('unfinished')
  })

  test('ranks what was tried when it is stopped, and says what was not', () => {
    // Of the first turn the plan as it is, and three changes.
    const first = helpInParts(plan, question)
    const { parts } = first.next([]).value as { parts: readonly Parameters<typeof look>[0][] }
    const known = parts.map((part, index) => (index < 4 ? look(part) : undefined))
    let next = first.next(known)
    while (next.done !== true) next = first.next(next.value.parts.map(() => undefined))
    expect(next.value.unfinished).toBe(true)
    expect(next.value.ranked).toHaveLength(3)
    for (const tried of next.value.ranked) {
      expect(tried).not.toHaveProperty('sure')
      expect(tried.outcome).toEqual(alone.ranked.find(({ changes }) => changes[0] === tried.changes[0])?.outcome)
    }
    const untried = next.value.left.filter(({ why }) => why.startsWith('stopped'))
    expect(untried).toHaveLength(parts.length - 4)
    expect(() => backwards(helpInParts(plan, question), look, 0)).toThrow(Cancelled)
  })
})
