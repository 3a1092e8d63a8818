import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { readPlan } from '../../../src/core/plan/read.ts'
import { resolvePlan } from '../../../src/core/plan/resolve.ts'

const folder = new URL('../../../shared/examples/', import.meta.url)
const examples = readdirSync(folder).map((name) => ({
  name,
  plan: readPlan(readFileSync(new URL(name, folder), 'utf8')),
}))

describe.each(examples)('$name', ({ name, plan }) => {
  test('is a plan file that can be computed', () => {
    expect(name).toMatch(/^[a-z-]+\.thickset$/)
    const { job, targets } = resolvePlan(plan)
    expect(job.stages.length).toBeGreaterThan(1)
    expect(targets.length).toBeGreaterThan(0)
  })

  test('is a piece for which time has to be computed: 5 cm and thicker', () => {
    const poured = plan.stages.flatMap((stage) => (stage.start ?? []).filter((action) => action.do === 'pour'))
    const layers = [...plan.piece.fill, ...poured].reduce((sum, layer) => sum + (layer.thickness_mm ?? 0), 0)
    // A half-round is filled to its rim.
    const { shape } = plan.piece
    const height = 'radius_mm' in shape ? shape.radius_mm : layers
    expect(height).toBeGreaterThanOrEqual(50)
  })
})

test('between them they show what a plan can say', () => {
  const kinds = examples.map(({ plan }) => plan.piece.shape.kind).sort()
  expect(kinds).toEqual(['bar', 'dome', 'ring', 'round', 'sheet', 'trough', 'trough'])
  const stages = examples.flatMap(({ plan }) => plan.stages)
  const done = new Set(stages.flatMap((stage) => (stage.start ?? []).map((action) => action.do)))
  expect([...done].sort()).toEqual(['coat', 'cover', 'cut', 'pour', 'stand', 'turn', 'uncover', 'unmould'])
  const ends = new Set(stages.flatMap((stage) => Object.keys(stage.until)))
  expect([...ends].sort()).toEqual(['after_h', 'clock', 'core_C', 'max_h', 'mean_C', 'probe', 'surface_C', 'target'])
  expect(stages.some(({ repeat }) => repeat !== undefined)).toBe(true)
  const asked = new Set(examples.flatMap(({ plan }) => (plan.targets ?? []).map((target) => target.kind)))
  expect([...asked].sort()).toEqual(['baked', 'cooled', 'frozen'])
  expect(examples.some(({ plan }) => (plan.rules ?? []).length > 0)).toBe(true)
})
