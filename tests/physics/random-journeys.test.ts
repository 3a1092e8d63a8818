import fc from 'fast-check'
import { expect, test } from 'vitest'
import { cutOut, type Form } from '../../src/core/geometry/form.ts'
import { buildMesh, cellsThere, type Mesh } from '../../src/core/geometry/mesh.ts'
import { causesOf } from '../../src/core/journey/causes.ts'
import { formsOf, referenceOf } from '../../src/core/journey/forms.ts'
import { runOnGrid } from '../../src/core/journey/grid-journey.ts'
import { type Resolution, resolutions } from '../../src/core/journey/resolution.ts'
import { transfer } from '../../src/core/journey/transfer.ts'
import { findPlanFaults } from '../../src/core/plan/read.ts'
import { resolvePlan } from '../../src/core/plan/resolve.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { randomPlan } from '../support/random-plans.ts'

/**
 * Coarse cells, so that there can be many; steps as exact as the standard ones. With more tolerance they pass a held
 * surface that jumps by 90 K by up to a tenth of a kelvin.
 */
const resolution: Resolution = {
  perHalf: [8, 6, 4],
  halved: true,
  tolerance_K: resolutions.standard.tolerance_K,
  firstStep: 20,
  longestStep: 3600,
}

/** Of plans that can be carried out; the others are refused with words, as the first test sees. */
const journeys = randomPlan.filter((plan) => findPlanFaults(plan).length === 0).map((plan) => plan as unknown as Plan)

test('a plan at random is carried out or refused with a reason', () => {
  let refused = 0
  fc.assert(
    fc.property(randomPlan, (plan) => {
      const faults = findPlanFaults(plan)
      for (const { path, problem, remedy } of faults) expect(path + problem + remedy).toMatch(/\w/)
      if (faults.length > 0) refused++
      else resolvePlan(plan as unknown as Plan)
    }),
    { numRuns: 500, seed: 20_270_312 },
  )
  // Both kinds are among them, or the test sees nothing.
  expect(refused).toBeGreaterThan(50)
  expect(refused).toBeLessThan(450)
})

/** A thousand journeys in ten tests. */
const parts = Array.from({ length: 10 }, (_, part) => part)

test.each(parts)(
  'hundred random journeys, part %i: heat kept, temperatures between their causes, all to their end',
  (part) => {
    fc.assert(
      fc.property(journeys, (plan) => {
        const { job } = resolvePlan(plan)
        const course = runOnGrid(job, resolution)
        expect(course.energyResidual).toBeLessThan(1e-8)
        const { range_C, driven } = causesOf(job)
        expect(driven).toBe(false)
        let outside = 0
        const count = (value: number): void => {
          if (!(value >= range_C[0] - 0.02 && value <= range_C[1] + 0.02)) outside++
        }
        for (const { T_C, surface_C, mesh } of course.segments) {
          const there = cellsThere(mesh)
          for (const values of T_C) for (const cell of there) count(values[cell]!)
          for (const values of surface_C) values.forEach(count)
        }
        expect(outside).toBe(0)
        expect(course.stages).toHaveLength(job.stages.length)
        expect(course.t.every((t, i) => i === 0 || t >= course.t[i - 1]!)).toBe(true)
        // Every place of what is left has been somewhere since it was poured.
        for (const place of course.places()) expect(place.T_C.every(Number.isFinite)).toBe(true)
      }),
      { numRuns: 100, seed: 1000 + part },
    )
  },
  240_000,
)

const meshOf = (form: Form, forms: readonly Form[], perHalf: number): Mesh =>
  buildMesh(form, {
    perHalf,
    halved: false,
    mirrored: form.body.axes.map(() => false),
    insulated: new Set(),
    reference: referenceOf(forms),
  })

const contentOf = (mesh: Mesh, values: Float64Array): number =>
  mesh.volume.reduce((sum, volume, cell) => sum + (volume === 0 ? 0 : volume * values[cell]!), 0)

/** A field without any pattern, the same for the same cell. */
const fieldOf = (mesh: Mesh): Float64Array =>
  Float64Array.from({ length: mesh.cells }, (_, cell) => Math.sin(37 * cell) * 1e7)

test('a field carried to another form and grid keeps its content to round-off, piece by piece', () => {
  fc.assert(
    fc.property(journeys, fc.integer({ min: 2, max: 5 }), fc.integer({ min: 3, max: 7 }), (plan, count, perHalf) => {
      const { job } = resolvePlan(plan)
      const uncut = {
        ...job,
        stages: job.stages.map((stage) => ({ ...stage, start: stage.start.filter((action) => action.do !== 'cut') })),
      }
      const forms = formsOf(uncut)
      const last = forms[forms.length - 1]!
      for (const [index, form] of forms.entries()) {
        const next = forms[index + 1]
        if (next === undefined) break
        const [from, to] = [meshOf(form, forms, 4), meshOf(next, forms, perHalf)]
        const field = fieldOf(from)
        const carried = transfer(from, to, field, () => 0).map((value) => (Number.isNaN(value) ? 0 : value))
        const [before, after] = [contentOf(from, field), contentOf(to, carried)]
        const scale = from.volume.reduce((sum, volume) => sum + volume, 0) * 1e7
        expect(Math.abs(after - before) / scale).toBeLessThan(1e-11)
      }
      // All pieces of a cut together hold what the whole held.
      const axis = last.body.axes.findIndex(({ cuts }) => cuts !== undefined)
      if (axis < 0) return
      const from = meshOf(last, forms, 4)
      const field = fieldOf(from)
      const [low, high] = [last.box.low[axis]!, last.box.high[axis]!]
      let sum = 0
      for (let piece = 0; piece < count; piece++) {
        const at = (share: number): number => low + (share / count) * (high - low)
        const cut = cutOut(last, [{ axis, low: at(piece), high: at(piece + 1) }], count)
        const to = meshOf(cut, forms, perHalf)
        sum += contentOf(
          to,
          transfer(from, to, field, () => Number.NaN),
        )
      }
      const scale = from.volume.reduce((total, volume) => total + volume, 0) * 1e7
      expect(Math.abs(sum - contentOf(from, field)) / scale).toBeLessThan(1e-11)
    }),
    { numRuns: 60, seed: 7 },
  )
}, 120_000)
