import fc from 'fast-check'
import { expect, test } from 'vitest'
import { latinHypercube } from '../../src/core/deciding/latin-hypercube.ts'
import { prepareSpread } from '../../src/core/deciding/spread-samples.ts'
import { findPlanFaults } from '../../src/core/plan/read.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { randomPlan } from '../support/random-plans.ts'

/*
 * Draws of plans at random: a draw of zeros is the plan itself to the last bit, whatever its layers, pours, cuts,
 * coats, inserts and faces; and draws, some far out, can all be computed.
 */

const plans = randomPlan
  .filter((plan) => findPlanFaults(plan).length === 0)
  .map((plan) => ({ ...plan, fidelity: 'quick' }) as unknown as Plan)

test('a draw of zeros is the plan itself, and other draws can be computed', () => {
  let moved = 0
  let looked = 0
  fc.assert(
    fc.property(plans, (plan) => {
      const task = prepareSpread(plan, { runs: 20, seed: 9 }, {}, latinHypercube)
      expect(task.row(new Float64Array(task.inputs.length), {})).toEqual(task.nominal)
      for (const draw of [task.draws[0]!, task.draws[1]!.map((z) => 2 * z)]) {
        const row = task.row(draw, {})
        looked++
        if (row.some((value, column) => Number.isFinite(value) && Math.abs(value - task.nominal[column]!) > 0.05))
          moved++
        // A place that is poured later has no temperature before, and a draw may move that moment; all else is a number.
        const { curves, moments } = task.columns
        const first = row.length - curves.length * moments.length
        for (const [curve, name] of curves.entries()) {
          if (name === 'core' || name.startsWith('probe:')) continue
          const from = first + curve * moments.length
          expect(row.subarray(from, from + moments.length).some(Number.isNaN), name).toBe(false)
        }
      }
    }),
    { numRuns: 12, seed: 20_270_312 },
  )
  // Draws differ from the plan nearly always, or the inputs don't reach the job.
  expect(moved / looked).toBeGreaterThan(0.95)
}, 120_000)
