import { readdirSync, readFileSync } from 'node:fs'
import { expect, test, vi } from 'vitest'
import { forecast } from '../../../src/core/forecast.ts'
import type { Body } from '../../../src/core/geometry/body.ts'
import { cartesian } from '../../../src/core/geometry/coordinates/cartesian.ts'
import { shapeTitles, sizesOfShape } from '../../../src/core/geometry/shapes/index.ts'
import { jsonSchema } from '../../../src/core/plan/json-schema.ts'
import { findPlanFaults, readPlan } from '../../../src/core/plan/read.ts'
import { withShape } from '../../../src/renderer/edits/shape.ts'
import { drawPiece } from '../../../src/renderer/section/drawing.ts'
import { aPlan } from '../plan/a-plan.ts'
import { areaWithin, outlinesOf } from '../renderer/path-area.ts'

/*
 * A shape that nobody has: a wall that leans on another, so that its back lets nothing through. All that is done for
 * it is a definition and a line in the registry; this test's registry is the real one and that line.
 */
vi.mock(import('../../../src/core/geometry/shapes/registry.ts'), async (original) => {
  const { shapes } = await original()
  const { defineShape, length_mm } = await import('../../../src/core/geometry/shapes/definition.ts')
  const { z } = await import('../../../src/core/zod.ts')
  const leaning = defineShape({
    kind: 'leaning',
    title: 'Leaning wall',
    fields: z.strictObject({ kind: z.literal('leaning'), depth_mm: length_mm }).meta({ title: 'Leaning wall' }),
    sizes: [{ key: 'depth_mm', label: 'Depth', quantity: 'length', drawn: 'across' }],
    body: ({ depth_mm }): Body => ({
      kind: 'leaning',
      coordinates: cartesian,
      axes: [
        { carries: 'x', length: depth_mm / 1000, low: null, high: 'front', linedLow: false, linedHigh: true },
        { carries: 'y', length: 0, low: 'bottom', high: 'top', linedLow: true, linedHigh: false },
        { carries: 'z', length: 1, low: null, high: null, linedLow: false, linedHigh: false, idle: true },
      ],
      stackAxis: 1,
      measure: 1,
      faces: { bottom: ['bottom'], top: ['top'], front: ['front'] },
    }),
    faults: ({ depth_mm }) =>
      depth_mm < 2000 ? [] : [{ key: 'depth_mm', problem: 'is too deep to lean', remedy: 'give less than 2000' }],
    like: ({ across }) => ({ kind: 'leaning' as const, depth_mm: across * 1000 }),
  })
  return { shapes: [...shapes, leaning] as unknown as typeof shapes }
})

const leaningPlan = (depth_mm: number): unknown => ({
  ...aPlan({ stages: [{ name: 'Chill', in: { air_C: 4, h_W_m2K: 10 }, until: { after_h: 2 } }] }),
  fidelity: 'quick',
  piece: {
    shape: { kind: 'leaning', depth_mm },
    fill: [{ material: 'pastry-cream', thickness_mm: 100, start_C: 80 }],
  },
})

test('a shape is added by one file and one line: plan, description, window and forecast know it', () => {
  expect(JSON.stringify(jsonSchema())).toContain('"leaning"')
  expect((shapeTitles as Record<string, string>).leaning).toBe('Leaning wall')
  expect(sizesOfShape('leaning' as never)).toHaveLength(1)
  expect(findPlanFaults(leaningPlan(3000))).toEqual([
    { path: 'piece.shape.depth_mm', problem: 'is too deep to lean', remedy: 'give less than 2000' },
  ])
  const plan = readPlan(JSON.stringify(leaningPlan(120)))
  const { curves, model, quantities, film } = forecast(plan)
  expect(model.energyResidual).toBeLessThan(1e-10)
  expect(quantities.volume_m3).toBeCloseTo(0.12 * 0.1, 9)
  expect(film[0]!.grid.width_m).toBeCloseTo(0.12, 9)
  expect(curves.core!.at(-1)!).toBeLessThan(80)
})

test('the window draws it as it is computed, with its size on a line and handles, without a word of it', () => {
  const plan = readPlan(JSON.stringify(leaningPlan(120)))
  const drawing = drawPiece(plan, { width: 344, tallest: 250, chosen: 'fill[0]', lengthUnit: 'mm' })
  expect(drawing.size.width).toBeCloseTo(120, 6)
  expect(drawing.size.height).toBeCloseTo(100, 6)
  const { paper } = drawing
  expect(areaWithin(outlinesOf(drawing.areas[0]!.path)) / paper.scale ** 2 / (120 * 100)).toBeCloseTo(1, 3)
  expect(drawing.dimensions.map(({ path, value }) => [path, value])).toContainEqual(['piece.shape.depth_mm', 120])
  expect(drawing.grip?.path).toBe('piece.fill[0].thickness_mm')
  // From another shape it begins at about that one's size, and back.
  const asBar = withShape(plan, 'bar')
  expect(asBar.piece.shape).toMatchObject({ kind: 'bar', width_mm: 120 })
  expect(withShape(asBar, 'leaning' as never).piece.shape).toEqual({ kind: 'leaning', depth_mm: 120 })
})

test('no file of the window names a shape where it draws', () => {
  const folder = new URL('../../../src/renderer/section/', import.meta.url)
  const words = Object.keys(shapeTitles).map((kind) => `'${kind}'`)
  for (const file of readdirSync(folder)) {
    const text = readFileSync(new URL(file, folder), 'utf8')
    for (const word of words) expect(`${file}: ${text.includes(word)} ${word}`).toBe(`${file}: false ${word}`)
  }
})
