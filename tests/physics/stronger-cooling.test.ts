import fc from 'fast-check'
import { expect, test } from 'vitest'
import { runJourney } from '../../src/core/journey/journey.ts'
import { crossings } from '../../src/core/journey/series.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { resolvePlan } from '../../src/core/plan/resolve.ts'
import type { PlanSurroundings } from '../../src/core/plan/schema/plan.ts'

/** What a piece goes through; the three things that a workshop can make stronger. */
interface Wish {
  readonly shape: Readonly<Record<string, string | number>>
  readonly thickness_mm: number
  readonly material: string
  readonly start_C: number
  readonly surroundings: string
  readonly covered: boolean
  readonly set_C: number
  readonly capacity_W: number
  readonly speed: number
}

/** Hours until the warmest place is at `target_C`, and the air all along. */
function hoursTo(wish: Wish, target_C: number): number {
  const { shape, thickness_mm, material, start_C, surroundings, covered, set_C, capacity_W, speed } = wish
  const given: PlanSurroundings = {
    like: surroundings,
    air_speed_m_s: speed,
    appliance: { set_C, capacity_W, rated_C: -10 },
  }
  const plan = readPlan(
    JSON.stringify({
      ...{ format: 'thickset-plan', version: 1, title: 'one', startsAt: '2027-03-12T16:00', fidelity: 'quick' },
      piece: { shape, fill: [{ material, start_C, ...(shape.kind === 'ball' ? {} : { thickness_mm }) }] },
      stages: [
        {
          ...{ name: 'Cool', in: given, until: { core_C: target_C, max_h: 400 } },
          ...(covered ? { start: [{ do: 'cover', with: 'film', faces: ['all'] }] } : {}),
        },
      ],
    }),
  )
  const { job } = resolvePlan(plan)
  const course = runJourney(job, { fidelity: 'quick' })
  const passed = crossings(course.t, course.hottest_C, target_C).at(-1)?.at ?? course.t.at(-1)!
  return passed / 3600
}

const shape = fc.oneof(
  fc.record({
    kind: fc.constant('block'),
    width_mm: fc.integer({ min: 80, max: 400 }),
    length_mm: fc.integer({ min: 100, max: 500 }),
  }),
  fc.record({ kind: fc.constant('round'), diameter_mm: fc.integer({ min: 80, max: 350 }) }),
  fc.record({ kind: fc.constant('sheet'), area_m2: fc.constantFrom(0.1, 0.3) }),
  fc.record({ kind: fc.constant('ball'), diameter_mm: fc.integer({ min: 80, max: 250 }) }),
)
const wish: fc.Arbitrary<Wish> = fc.record({
  shape,
  thickness_mm: fc.integer({ min: 30, max: 120 }),
  material: fc.constantFrom('pastry-cream', 'ganache', 'sponge-crumb', 'fruit-puree'),
  start_C: fc.integer({ min: 25, max: 80 }),
  surroundings: fc.constantFrom('chest-freezer', 'fridge-static', 'cabinet-freezer', 'blast-chiller', 'cold-room'),
  covered: fc.boolean(),
  set_C: fc.integer({ min: -24, max: 4 }),
  capacity_W: fc.integer({ min: 150, max: 900 }),
  speed: fc.double({ min: 0.05, max: 3, noNaN: true }),
})

// Two courses of one piece fall into other steps: quick ones are known to about 1 K, 2 % of their time and a minute.
const noLater = (stronger: number, weaker: number): void => expect(stronger).toBeLessThan(weaker * 1.02 + 0.02)

test('more capacity, more air speed or colder air never lengthens a cooling time', { timeout: 300_000 }, () => {
  fc.assert(
    fc.property(wish, fc.constantFrom('capacity', 'speed', 'cold'), (one, stronger) => {
      const target_C = Math.min(one.start_C - 5, Math.max(one.set_C + 5, 8))
      const before = hoursTo(one, target_C)
      const change = {
        capacity: { capacity_W: 1.6 * one.capacity_W },
        speed: { speed: 2 * one.speed + 0.2 },
        cold: { set_C: one.set_C - 4 },
      }[stronger]
      noLater(hoursTo({ ...one, ...change }, target_C), before)
    }),
    { seed: 20270312, numRuns: 120 },
  )
})
