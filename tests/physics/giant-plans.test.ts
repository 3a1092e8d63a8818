import { describe, expect, test } from 'vitest'
import { PlanError, sayFault } from '../../src/core/errors.ts'
import { forecast } from '../../src/core/forecast.ts'
import { createReel } from '../../src/core/journey/reel.ts'
import { findPlanFaults } from '../../src/core/plan/read.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'

// Plans that ask for more memory than anybody has: every number in them may be given, only not all together.

const layer = (thickness_mm: number) => ({ material: 'egg-custard', thickness_mm, start_C: 20 })

/** Linings, layers and inserts, as many as a plan may have, and heat in three directions. */
const giant = (fidelity: NonNullable<Plan['fidelity']>): Plan => ({
  format: 'thickset-plan',
  version: 1,
  title: 'Giant',
  startsAt: '2027-03-12T16:00',
  fidelity,
  piece: {
    shape: { kind: 'block', width_mm: 3000, length_mm: 3100 },
    lining: Array.from({ length: 8 }, () => layer(60)),
    fill: Array.from({ length: 12 }, () => layer(120)),
    inserts: Array.from({ length: 8 }, () => ({ material: 'sponge-crumb', start_C: 5, margin_mm: 10 })),
  },
  stages: [
    {
      name: 'Freeze',
      in: { air_C: -18, h_W_m2K: 8, faces: { left: { h_W_m2K: 5 }, top: { h_W_m2K: 3 }, front: { h_W_m2K: 2 } } },
      until: { after_h: 200 },
    },
  ],
})

function refusal(plan: Plan): unknown {
  let steps = 0
  try {
    forecast(plan, { stopped: () => ++steps > 0 })
  } catch (error) {
    return error
  }
  return undefined
}

describe('a plan that would need a giant grid', () => {
  test.each(['quick', 'standard', 'fine'] as const)('is refused before the first step (%s)', (fidelity) => {
    expect(findPlanFaults(giant(fidelity))).toEqual([])
    const error = refusal(giant(fidelity))
    expect(error).toBeInstanceOf(PlanError)
    expect((error as PlanError).faults.map(sayFault)).toEqual([
      expect.stringMatching(
        /^piece: needs a grid of \d+ thousand cells, and 250 thousand at most can be computed; give/,
      ),
    ])
  })

  test('many grids are refused as one is', () => {
    const one = giant('fine')
    const { inserts: _, ...piece } = one.piece
    const many: Plan = {
      ...one,
      piece: { ...piece, lining: piece.lining!.slice(0, 4), fill: [layer(300)] },
      stages: Array.from({ length: 40 }, () => ({
        ...one.stages[0]!,
        start: [{ do: 'pour' as const, ...layer(20) }],
        until: { after_h: 0.1 },
      })),
    }
    const error = refusal(many)
    expect(error).toBeInstanceOf(PlanError)
    expect((error as PlanError).faults.map(sayFault)).toEqual([
      expect.stringMatching(
        /^stages: change the piece so often that the first \d+ grids alone have \d+ thousand cells/,
      ),
    ])
  })
})

test('moments are kept as far as memory may go, and that is known before it is taken', () => {
  const [width, most] = [10, 1995]
  const reel = createReel(width, most)
  let rows = 0
  for (; !reel.full(); rows++) expect(reel.append()).toBe(rows * width)
  expect(rows).toBe(199)
  expect(reel.data().length).toBeLessThanOrEqual(most)
})
