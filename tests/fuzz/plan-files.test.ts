import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { Cancelled, PlanError } from '../../src/core/errors.ts'
import { forecast } from '../../src/core/forecast.ts'
import { findPlanFaults, readPlan } from '../../src/core/plan/read.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { readTextFile } from '../../src/main/atomic-file.ts'
import { PLAN_BYTES } from '../../src/main/contract.ts'
import { randomPlan } from '../support/random-plans.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'
import { expectOwnError } from './clear-words.ts'
import { examples, mutatedBytes, mutatedText, mutatedValue, nudgedValue } from './mutations.ts'
import { share, timeout } from './runs.ts'

// The first door: a plan file, from its bytes to the forecast. Whatever it holds, it is read and computed, or refused
// with our own errors in words for a person.

const folder = temporaryFolder()

/** Steps after which a forecast is stopped: a bound on work, not on time. */
const STEPS = 12
/** One plan in so many is computed as far as its steps reach. */
const EVERY = 10

const originals = fc.oneof(
  fc.constantFrom(...examples).map((text) => JSON.parse(text) as unknown),
  randomPlan,
)
const counted = { read: 0, refused: 0, computed: 0 }

function compute(plan: Plan): void {
  let steps = 0
  try {
    const made = forecast({ ...plan, fidelity: 'quick' }, { stopped: () => ++steps > STEPS })
    for (const curve of Object.values(made.curves))
      for (const value of curve) expect(value === null || Number.isFinite(value)).toBe(true)
  } catch (error) {
    if (!(error instanceof Cancelled)) expectOwnError(error)
  }
}

/** Reads a text as the program does, and computes some of what can be read. */
function enter(text: string): void {
  let plan: Plan
  try {
    plan = readPlan(text)
  } catch (error) {
    expect(error).toBeInstanceOf(PlanError)
    expectOwnError(error)
    counted.refused++
    return
  }
  counted.read++
  expect(findPlanFaults(plan)).toEqual([])
  if (counted.read % EVERY !== 0) return
  counted.computed++
  compute(plan)
}

describe('a plan file of any contents', { timeout }, () => {
  it('changed in its letters', () => {
    fc.assert(fc.property(mutatedText(examples), enter), share(0.3))
  })

  it('changed in its values, and still well written', () => {
    fc.assert(
      fc.property(mutatedValue(originals), (value) => enter(JSON.stringify(value) ?? '')),
      share(0.35),
    )
  })

  it('changed a little in its numbers', () => {
    fc.assert(
      fc.property(nudgedValue(originals), (value) => enter(JSON.stringify(value) ?? '')),
      share(0.15),
    )
  })

  it('changed in its bytes, on the disk', async () => {
    const path = join(folder.path, 'any.thickset')
    const property = fc.asyncProperty(
      fc.oneof(mutatedBytes(examples), fc.uint8Array({ maxLength: 300 })),
      async (bytes) => {
        await writeFile(path, bytes)
        const text = await readTextFile(path, PLAN_BYTES).then(
          (file) => file.text,
          (error: unknown) => {
            expectOwnError(error)
            counted.refused++
          },
        )
        if (text !== undefined) enter(text)
      },
    )
    await fc.assert(property, share(0.1))
  })

  it('of another kind', () => {
    const others = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 200 }),
      fc.json({ maxDepth: 12 }),
      fc.nat({ max: 20_000 }).map((depth) => '['.repeat(depth)),
      fc.nat({ max: 1_500 }).map((count) => `{"stages":[${'{},'.repeat(count)}{}]}`),
      fc.nat({ max: 3000 }).map((count) => `{${Array.from({ length: count }, (_, i) => `"k${i}":1`).join(',')}}`),
    )
    fc.assert(fc.property(others, enter), share(0.1))
  })

  it('is read now and then, refused now and then', () => {
    console.info(`plan files: ${counted.read} read, ${counted.computed} of them computed, ${counted.refused} refused`)
    expect(Math.min(counted.read, counted.refused)).toBeGreaterThan(20)
    expect(counted.computed).toBeGreaterThan(5)
  })
})
