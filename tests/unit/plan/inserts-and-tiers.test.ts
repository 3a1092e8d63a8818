import { expect, test } from 'vitest'
import { findPlanFaults } from '../../../src/core/plan/read.ts'
import { resolvePlan } from '../../../src/core/plan/resolve.ts'
import { aPlan } from './a-plan.ts'

const fill = (thickness_mm?: number) => ({
  material: 'pastry-cream',
  ...(thickness_mm === undefined ? {} : { thickness_mm }),
  start_C: 60,
})
const planOf = (shape: unknown, layers: unknown[], more: object = {}): unknown => ({
  ...aPlan({ stages: [{ name: 'Chill', in: { air_C: 4, h_W_m2K: 10 }, until: { after_h: 2 } }] }),
  piece: { shape, fill: layers, ...more },
})
const faultsOf = (plan: unknown): string[] =>
  findPlanFaults(plan).map(({ path, problem, remedy }) => `${path}: ${problem}; ${remedy}`)
const core = (more: object = {}) => ({ material: 'fruit-puree', start_C: -18, margin_mm: 20, ...more })
const block = { kind: 'block', width_mm: 200, length_mm: 300 }
const trough = { kind: 'trough', radius_mm: 150, length_mm: 600 }

test('margins of an insert: on every side, or by face, the narrowest name counting', () => {
  const plan = planOf(block, [fill(100)], { inserts: [core({ margin_mm: { all: 20, sides: 30, left: 40 } })] })
  expect(faultsOf(plan)).toEqual([])
  const { job } = resolvePlan(plan as never)
  expect(job.inserts![0]!.margins).toEqual({
    left: 0.04,
    right: 0.03,
    front: 0.03,
    back: 0.03,
    bottom: 0.02,
    top: 0.02,
  })
})

test('inserts that have no place', () => {
  expect(faultsOf(planOf(block, [fill(100)], { inserts: [core({ within: 1 })] }))).toEqual([
    'piece.inserts[0].within: there is no fill 1; give 0 to 0',
  ])
  expect(faultsOf(planOf(block, [fill(100)], { inserts: [core({ margin_mm: { arc: 5 } })] }))[0]).toMatch(
    /^piece.inserts\[0\].margin_mm.arc: a block has no such face/,
  )
  expect(faultsOf(planOf(block, [fill(40)], { inserts: [core()] }))).toEqual([
    'piece.inserts[0].margin_mm: leaves no room for the insert; keep the margins together under 40 mm',
  ])
  expect(faultsOf(planOf(trough, [fill()], { inserts: [core(), core()] }))).toEqual([
    'piece.inserts[1].within: has an insert already; give each fill of a trough one',
  ])
  expect(faultsOf(planOf(block, [fill(100)], { inserts: [core({ material: 'fruit-pureee' })] }))[0]).toMatch(
    /^piece.inserts\[0\].material: no material is called/,
  )
})

test('tiers: heights of all but the uppermost, layers up into that one, no lining', () => {
  const tiers = (...heights: (number | undefined)[]) => ({
    kind: 'tiers',
    tiers: heights.map((height_mm, i) => ({
      diameter_mm: 300 - 80 * i,
      ...(height_mm === undefined ? {} : { height_mm }),
    })),
  })
  expect(faultsOf(planOf(tiers(100, undefined), [fill(180)]))).toEqual([])
  expect(faultsOf(planOf(tiers(100, undefined), [fill(90)]))).toEqual([
    'piece.fill: is 90 mm high and ends below the uppermost tier; make the layers higher than 100 mm, or leave a tier out',
  ])
  expect(faultsOf(planOf(tiers(undefined, undefined), [fill(90)]))).toEqual([
    'piece.shape.tiers[0].height_mm: is missing; give it in mm',
  ])
  expect(faultsOf(planOf(tiers(100, 50), [fill(180)]))[0]).toMatch(/^piece.shape.tiers\[1\].height_mm: is not asked/)
  expect(faultsOf(planOf(tiers(100, undefined), [fill(180)], { lining: [{ ...fill(10) }] }))).toEqual([
    'piece.lining: does not go round tiers; coat them at the start of a stage',
  ])
  expect(faultsOf(planOf(tiers(100, undefined), [fill(180)], { inserts: [core()] }))).toEqual([
    'piece.inserts[0].within: goes through several tiers; give each tier a fill of its own',
  ])
})
