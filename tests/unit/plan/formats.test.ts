import { readdirSync, readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { PlanError, sayFault } from '../../../src/core/errors.ts'
import { readKept } from '../../../src/core/fitting/kept.ts'
import { migrations } from '../../../src/core/plan/migrations/registry.ts'
import { findPlanFaults, openPlan, readPlan } from '../../../src/core/plan/read.ts'
import { PLAN_VERSION, type Plan } from '../../../src/core/plan/schema/plan.ts'
import { writePlan } from '../../../src/core/plan/write.ts'
import { randomPlan } from '../../support/random-plans.ts'
import { aPlan } from './a-plan.ts'

const folder = new URL('../../support/formats/', import.meta.url)
const fileOf = (version: number): string => readFileSync(new URL(`version-${version}.thickset`, folder), 'utf8')
const old = JSON.parse(fileOf(0)) as Record<string, unknown>
const faultsOf = (value: unknown): string[] => openPlan(JSON.stringify(value)).faults.map(sayFault)

describe('older files', () => {
  test('there is a step from every version, and a file of every version is kept', () => {
    expect(migrations.map(({ from }) => from)).toEqual(Array.from({ length: PLAN_VERSION }, (_, version) => version))
    expect(readdirSync(folder).sort()).toEqual(
      Array.from({ length: PLAN_VERSION + 1 }, (_, version) => `version-${version}.thickset`),
    )
  })

  test.each(Array.from({ length: PLAN_VERSION + 1 }, (_, version) => version))(
    'a file of version %i is today’s plan, and saved as that',
    (version) => {
      const read = openPlan(fileOf(version))
      expect(read.faults).toEqual([])
      expect(writePlan(read.plan!)).toBe(fileOf(PLAN_VERSION))
    },
  )

  test('that it was brought up is told; of today’s version there is nothing to tell', () => {
    expect(openPlan(fileOf(0)).notes).toEqual([{ code: 'plan-brought-up', values: { from: 0, to: PLAN_VERSION } }])
    expect(openPlan(fileOf(PLAN_VERSION)).notes).toEqual([])
  })

  test('what is read is not changed', () => {
    const given = JSON.parse(fileOf(0)) as Record<string, unknown>
    migrations[0]!.change(given)
    expect(given).toEqual(old)
  })

  test('faults of an older file are all told, and what it says twice is not thrown away', () => {
    const piece = old.piece as Record<string, unknown>
    expect(faultsOf({ ...old, startsAt: '2027-03-12T17:00', piece: { ...piece, fill: piece.layers } })).toEqual([
      'piece.layers: is not a key that belongs here; known are: shape, lining, fill, inserts, mould',
      'begins: is not a key that belongs here; known are: $schema, format, version, title, startsAt, zone, clock_changes, rules, fidelity, dimensions, materials, piece, stages, targets, probes, readings, promised, came',
    ])
    expect(faultsOf({ ...old, piece: 7, stages: [{ name: 'Night', in: 'fridge-fan', hours: -6 }, 3] })).toEqual([
      'piece: is 7; give an object { … } with shape, fill',
      'stages[0].until.after_h: is −6; give a number above 0 and at most 1440',
      'stages[1]: is 3; give an object { … } with name, in, until',
    ])
  })
})

describe('newer files', () => {
  const newer = `version: is ${PLAN_VERSION + 1}, and this program reads up to ${PLAN_VERSION}: a newer one wrote the file; open it with a newer Thickset; this one leaves it as it is`

  test('are refused by one message, whatever their keys', () => {
    expect(faultsOf({ ...aPlan(), version: PLAN_VERSION + 1, glaze: { sheen: 3 } })).toEqual([newer])
    expect(openPlan(JSON.stringify({ ...aPlan(), version: PLAN_VERSION + 1 })).plan).toBeUndefined()
    expect(() => readPlan(JSON.stringify({ ...aPlan(), version: PLAN_VERSION + 1 }))).toThrow(PlanError)
  })

  test('so is a newer file of kept measurements, while every stray key of one is named with its place', () => {
    const kept = { format: 'thickset-measured', version: 1, surroundings: [], materials: [] }
    expect(readKept(kept)).toEqual(kept)
    expect(() => readKept({ ...kept, version: 2, more: [] })).toThrow(newer)
    expect(() => readKept({ ...kept, version: 'one' })).toThrow('version: is "one"; give 1')
    expect(() => readKept({ ...kept, surounding: [], materials: [{ id: 'x', material: {}, like: 1 }] })).toThrow(
      /materials\[0\]\.material: says nothing[\s\S]*surounding: is not a key that belongs here; did you mean "surroundings"\?/,
    )
  })

  test.each([1.5, -1, '1', null, [1]])('a version of %j is none', (version) => {
    expect(faultsOf({ ...aPlan(), version })[0]).toMatch(/^version: is .*; give 1$/)
  })
})

/** The value with the keys of each object in another order, drawn by `order`. */
function shuffled(value: unknown, order: () => number): unknown {
  if (Array.isArray(value)) return value.map((entry) => shuffled(entry, order))
  if (typeof value !== 'object' || value === null) return value
  const entries = Object.entries(value).map(([key, inner]) => ({ key, inner, place: order() }))
  return Object.fromEntries(
    entries.sort((a, b) => a.place - b.place).map(({ key, inner }) => [key, shuffled(inner, order)]),
  )
}

describe('a saved file', () => {
  test('read and saved again is the same, byte for byte, in whatever order a plan was put together', () => {
    fc.assert(
      fc.property(randomPlan, fc.infiniteStream(fc.nat()), fc.string(), (drawn, places, title) => {
        const plan = shuffled({ ...drawn, title }, () => places.next().value as number) as Plan
        const saved = writePlan(plan)
        const read = openPlan(saved)
        expect(read.plan).toBeDefined()
        expect(writePlan(read.plan!)).toBe(saved)
        expect(findPlanFaults(read.plan)).toEqual(read.faults)
      }),
      { numRuns: 300, seed: 20270312 },
    )
  })

  test('of every example too, with nothing added and nothing left out', () => {
    const examples = new URL('../../../shared/examples/', import.meta.url)
    for (const name of readdirSync(examples)) {
      const text = readFileSync(new URL(name, examples), 'utf8')
      const saved = writePlan(readPlan(text))
      expect(JSON.parse(saved)).toEqual(JSON.parse(text))
      expect(writePlan(readPlan(saved))).toBe(saved)
    }
  })

  test('keeps numbers to their last digit, and letters of any script', () => {
    const title = 'Ж 餅 🍰 \u2028 \\ " \ud800'
    const piece = { ...aPlan().piece, shape: { kind: 'round' as const, diameter_mm: 0.1 + 0.2 + 300 } }
    const saved = writePlan(aPlan({ title, piece }))
    expect(readPlan(saved)).toEqual(aPlan({ title, piece }))
    expect(writePlan(readPlan(saved))).toBe(saved)
  })
})
