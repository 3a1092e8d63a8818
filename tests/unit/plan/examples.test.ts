import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { shapeTitles } from '../../../src/core/geometry/shapes/index.ts'
import { drawnPiece } from '../../../src/core/plan/drawn-piece.ts'
import { readPlan } from '../../../src/core/plan/read.ts'
import { resolvePlan } from '../../../src/core/plan/resolve.ts'
import { actionKinds } from '../../../src/core/plan/schema/action.ts'

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
    const { whole, coordinates } = drawnPiece(plan)
    const { low, high } = coordinates.bounds(whole)
    const height = 1000 * (high[1] - low[1])
    expect(height).toBeGreaterThanOrEqual(50)
  })
})

test('each has its sentence in the readme on what it teaches', () => {
  const readme = readFileSync(new URL('../../../README.md', import.meta.url), 'utf8')
  for (const { name } of examples) expect(readme).toContain(`- \`${name.replace('.thickset', '')}\`: `)
})

test('between them they show what a plan can say', () => {
  const kinds = new Set(examples.map(({ plan }) => plan.piece.shape.kind))
  expect([...kinds].sort()).toEqual(Object.keys(shapeTitles).sort())
  const stages = examples.flatMap(({ plan }) => plan.stages)
  const done = new Set(stages.flatMap((stage) => (stage.start ?? []).map((action) => action.do)))
  expect([...done].sort()).toEqual([...actionKinds].sort())
  const stands = stages.flatMap(({ start = [] }) =>
    start.flatMap((action) => (action.do === 'stand' ? [action.on] : [])),
  )
  expect([...new Set(stands)].sort()).toEqual(['board', 'rack', 'shelf', 'spacers'])
  const ways = stages.flatMap(({ start = [] }) =>
    start.flatMap((action) => (action.do === 'cut' ? Object.keys(action).filter((key) => key !== 'do') : [])),
  )
  expect([...new Set(ways)].sort()).toEqual(['across', 'along', 'slice_mm', 'wedges'])
  expect(examples.some(({ plan }) => (plan.piece.inserts ?? []).length > 0)).toBe(true)
  expect(examples.some(({ plan }) => plan.zone !== undefined)).toBe(true)
  expect(JSON.stringify(stages)).toContain('"air"')
  const ends = new Set(stages.flatMap((stage) => Object.keys(stage.until)))
  expect([...ends].sort()).toEqual(['after_h', 'clock', 'core_C', 'max_h', 'mean_C', 'probe', 'surface_C', 'target'])
  expect(stages.some(({ repeat }) => repeat !== undefined)).toBe(true)
  const asked = new Set(examples.flatMap(({ plan }) => (plan.targets ?? []).map((target) => target.kind)))
  expect([...asked].sort()).toEqual(['baked', 'coat', 'cooled', 'frozen'])
  expect(examples.some(({ plan }) => (plan.rules ?? []).length > 0)).toBe(true)
})
