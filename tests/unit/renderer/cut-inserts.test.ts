import { expect, test } from 'vitest'
import type { Plan, PlanShape } from '../../../src/core/plan/schema/plan.ts'
import { drawPiece } from '../../../src/renderer/section/drawing.ts'
import { areaWithin, outlinesOf } from './path-area.ts'
import { bar } from './plans.ts'

/* Areas of segments of a circle: any handbook, from memory. A drawing's numbers are rounded to hundredths of a pixel. */

const coreArea = (shape: PlanShape, thickness_mm: number | undefined, margin_mm: Record<string, number>): number => {
  const fill = { material: 'custard', ...(thickness_mm === undefined ? {} : { thickness_mm }), start_C: 60 }
  const plan: Plan = {
    ...bar,
    piece: { shape, fill: [fill], inserts: [{ material: 'sponge', start_C: 4, margin_mm }] },
    stages: bar.stages.slice(0, 1),
  }
  const drawing = drawPiece(plan, { width: 800, tallest: 600, chosen: null, lengthUnit: 'mm' })
  const area = drawing.areas.find(({ name }) => name === 'inserts[0]')
  return areaWithin(outlinesOf(area?.path ?? '')) / drawing.paper.scale ** 2
}

test('an insert is drawn as it is computed', () => {
  const near = (drawn: number, exact: number) => expect(Math.abs(drawn / exact - 1)).toBeLessThan(0.002)
  near(coreArea({ kind: 'bar', width_mm: 200, length_mm: 900 }, 100, { left: 20, right: 40, top: 30 }), 140 * 70)
  near(coreArea({ kind: 'ring', outer_mm: 300, inner_mm: 100 }, 80, { inner: 10, sides: 30, bottom: 20 }), 2 * 60 * 60)
  near(coreArea({ kind: 'round', diameter_mm: 240 }, 80, { sides: 30, bottom: 20 }), 180 * 60)
  const half = { kind: 'trough', radius_mm: 150, length_mm: 600 } as const
  near(coreArea(half, undefined, { curved: 30 }), (Math.PI / 2) * 120 ** 2)
  const segment = 150 ** 2 * Math.acos(50 / 150) - 50 * Math.sqrt(150 ** 2 - 50 ** 2)
  near(coreArea(half, undefined, { curved: 30, top: 50 }), segment * 0.8 ** 2)
})
