import { describe, expect, test } from 'vitest'

import { buildBody } from '../../../src/core/geometry/shapes/index.ts'
import type { Plan, PlanShape } from '../../../src/core/plan/schema/plan.ts'
import { withFlat, withShape } from '../../../src/renderer/edits/shape.ts'
import { cutPiece } from '../../../src/renderer/section/areas.ts'
import type { CutPiece } from '../../../src/renderer/section/cut-piece.ts'
import { drawPiece } from '../../../src/renderer/section/drawing.ts'
import { frameOf } from '../../../src/renderer/section/figures.ts'
import { onPaper, outlinePath } from '../../../src/renderer/section/outline.ts'
import { areaWithin, outlinesOf } from './path-area.ts'
import { bar } from './plans.ts'

const WISH = { width: 344, tallest: 250, chosen: null, lengthUnit: 'mm' } as const
/** Large enough that hundredths of a px, to which paths are rounded, are nothing. */
const PAPER = { scale: 20, left: 0, base: 0 }

interface Depths {
  readonly lining?: readonly number[]
  readonly fill: readonly (number | null)[]
  readonly mould?: Plan['piece']['mould']
}

function planOf(shape: PlanShape, { lining = [], fill, mould }: Depths): Plan {
  const layer = (thickness_mm: number) => ({ material: 'sponge', thickness_mm, start_C: 20 })
  return {
    ...bar,
    piece: {
      shape,
      lining: lining.map(layer),
      fill: fill.map((depth) => (depth === null ? { material: 'custard', start_C: 60 } : layer(depth))),
      ...(mould === undefined ? {} : { mould }),
    },
    stages: [{ name: 'Freezer', in: 'freezer-static', until: { after_h: 12 } }],
  }
}

/** Area of each layer as drawn, mm². */
function drawnAreas(plan: Plan): Record<string, number> {
  return Object.fromEntries(
    cutPiece(plan).areas.map(({ row, figure }) => [
      row.name,
      areaWithin(outlinesOf(outlinePath(figure, PAPER))) / PAPER.scale ** 2,
    ]),
  )
}

/** Area of a circle's segment of the given height: Bronstein and Semendjajew, planimetry, circle. */
function segment(radius: number, height: number): number {
  const half = Math.acos(1 - height / radius)
  return radius * radius * (half - Math.sin(half) * Math.cos(half))
}

const trough: PlanShape = { kind: 'trough', radius_mm: 160, length_mm: 900 }
const near = (value: number | undefined, wanted: number): void => {
  expect(Math.abs((value ?? Number.NaN) / wanted - 1)).toBeLessThan(2e-4)
}

describe('half-rounds', () => {
  test.each([trough, { ...trough, flat: 'down' }, { kind: 'dome', radius_mm: 160 }] as const)(
    '%o: linings are half rings, fills the segments between their levels',
    (shape) => {
      // Bottom up: with the flat side down the first lies on that, the other in the crown.
      const down = shape.kind === 'dome' || 'flat' in shape
      const areas = drawnAreas(planOf(shape, { lining: [10, 6], fill: down ? [84, 60] : [60, 84] }))
      const [crown, flat] = down ? (['fill[1]', 'fill[0]'] as const) : (['fill[0]', 'fill[1]'] as const)
      near(areas['lining[0]'], (Math.PI / 2) * (160 ** 2 - 150 ** 2))
      near(areas['lining[1]'], (Math.PI / 2) * (150 ** 2 - 144 ** 2))
      near(areas[crown], segment(144, 60))
      near(areas[flat], (Math.PI / 2) * 144 ** 2 - segment(144, 60))
    },
  )

  test('a fill without thickness takes what is left up to the rim', () => {
    const areas = drawnAreas(planOf(trough, { lining: [10], fill: [null, 20] }))
    near(areas['fill[0]'], segment(150, 130))
    near(areas['fill[1]'], (Math.PI / 2) * 150 ** 2 - segment(150, 130))
  })

  test('filled in part, it ends at the level; filled over the rim, upright walls go on', () => {
    const part = planOf(trough, { lining: [10], fill: [50] })
    near(drawnAreas(part)['fill[0]'], segment(150, 50))
    // the lining ends square to the arc: a sector's part of the ring
    near(drawnAreas(part)['lining[0]'], Math.acos(100 / 150) * (160 ** 2 - 150 ** 2))
    expect(cutPiece(part).height).toBeCloseTo(60, 9)
    const over = planOf(trough, { lining: [10], fill: [170] })
    near(drawnAreas(over)['fill[0]'], (Math.PI / 2) * 150 ** 2 + 20 * 300)
    near(drawnAreas(over)['lining[0]'], (Math.PI / 2) * (160 ** 2 - 150 ** 2) + 2 * 20 * 10)
    expect(cutPiece(over).height).toBeCloseTo(180, 9)
  })

  test('the mould follows the arc, a plate lies on the flat side', () => {
    const mould = [
      { faces: ['curved', 'ends'], material: 'silicone', thickness_mm: 8 },
      { faces: ['top'], material: 'board', thickness_mm: 5 },
    ]
    const plan = planOf(trough, { fill: [160], mould })
    near(drawnAreas(plan)['mould[0]'], (Math.PI / 2) * (168 ** 2 - 160 ** 2))
    // over the rim of the mould
    near(drawnAreas(plan)['mould[1]'], 336 * 5)
    const { left, bottom, right, top } = cutPiece(plan).bounds
    expect([left, bottom, right, top].map((side) => Number(side.toFixed(9)))).toEqual([-8, -8, 328, 165])
  })

  test('flat side down, the last fill lies in the crown', () => {
    const drawing = drawPiece(planOf({ ...trough, flat: 'down' }, { fill: [100, 60] }), WISH)
    const first = drawing.areas.find(({ name }) => name === 'fill[1]')
    const top = Math.min(...outlinesOf(first?.path ?? '').flatMap((points) => points.map(([, y]) => y)))
    expect(top).toBeCloseTo(drawing.piece.top, 1)
  })

  test('turned the other way, faces of the flat side keep to it', () => {
    const plan = planOf(trough, {
      fill: [160],
      mould: [{ faces: ['curved', 'top'], material: 'steel', thickness_mm: 1 }],
    })
    const down = withFlat(plan, 'down')
    expect(down.piece.shape).toEqual({ ...trough, flat: 'down' })
    expect(down.piece.mould?.[0]?.faces).toEqual(['curved', 'bottom'])
    expect(withFlat(down, 'up')).toEqual(plan)
  })
})

describe('ring, log and vessel', () => {
  test('a ring is cut twice: cups of lining at hole and side, fills between', () => {
    const areas = drawnAreas(planOf({ kind: 'ring', outer_mm: 300, inner_mm: 100 }, { lining: [5], fill: [60, 20] }))
    // each half is 100 mm wide
    near(areas['lining[0]'], 2 * (100 * 85 - 90 * 80))
    near(areas['fill[0]'], 2 * 90 * 60)
    near(areas['fill[1]'], 2 * 90 * 20)
  })

  test('a ring’s mould stands in the hole too', () => {
    const mould = [{ faces: ['bottom', 'sides', 'inner'], material: 'steel', thickness_mm: 2 }]
    const plan = planOf({ kind: 'ring', outer_mm: 300, inner_mm: 100 }, { fill: [60], mould })
    near(drawnAreas(plan)['mould[0]'], 2 * (104 * 62 - 100 * 60))
    expect(cutPiece(plan).bounds).toEqual({ left: -2, bottom: -2, right: 302, top: 60 })
  })

  test('a log is cut as rings and shows its length from the side', () => {
    const plan = planOf({ kind: 'log', diameter_mm: 120, length_mm: 500 }, { lining: [10], fill: [null] })
    const areas = drawnAreas(plan)
    near(areas['lining[0]'], Math.PI * (60 ** 2 - 50 ** 2))
    near(areas['fill[0]'], Math.PI * 50 ** 2)
    expect(drawPiece(plan, WISH).side).toMatchObject({ value: 500, path: 'piece.shape.length_mm' })
  })

  test('a vessel of 10 L and 200 mm is filled 318 mm high: 10 dm³ over π/4 · 4 dm²', () => {
    const cut = cutPiece(planOf({ kind: 'stirred', volume_L: 10, diameter_mm: 200 }, { fill: [null] }))
    expect(cut.width).toBe(200)
    expect(cut.height).toBeCloseTo(318.31, 2)
  })
})

test('what is poured on a turned piece lies against its first underside, across its whole width', () => {
  const plan = planOf({ kind: 'bar', width_mm: 200, length_mm: 600 }, { lining: [10], fill: [50] })
  const pour = { do: 'pour', material: 'custard', thickness_mm: 15, start_C: 40 } as const
  const stages = [{ name: 'Bench', in: 'room', start: [{ do: 'turn' } as const, pour], until: { after_h: 1 } }]
  const cut = cutPiece({ ...plan, stages })
  expect(cut.height).toBe(75)
  const frame = (list: string) => frameOf(cut.areas.find(({ row }) => row.list === list)?.figure.loops(0) ?? [])
  expect(frame('pour')).toEqual({ left: 0, bottom: 0, right: 200, top: 15 })
  expect(frame('fill')).toEqual({ left: 10, bottom: 25, right: 190, top: 75 })
})

const shapes: readonly PlanShape[] = [
  { kind: 'sheet' },
  { kind: 'bar', width_mm: 200, length_mm: 600 },
  { kind: 'block', width_mm: 200, length_mm: 600 },
  { kind: 'round', diameter_mm: 240 },
  { kind: 'ring', outer_mm: 300, inner_mm: 80 },
  trough,
  { ...trough, flat: 'down' },
  { kind: 'dome', radius_mm: 120 },
  { kind: 'dome', radius_mm: 120, flat: 'up' },
  { kind: 'log', diameter_mm: 120, length_mm: 500 },
  { kind: 'ball', diameter_mm: 200 },
  { kind: 'shell', diameter_mm: 200, hollow_mm: 120 },
  { kind: 'tiers', tiers: [{ diameter_mm: 240, height_mm: 15 }, { diameter_mm: 140 }] },
  { kind: 'stirred', volume_L: 12 },
]

/** Farthest that a drawn layer reaches over the bounds, mm. */
function over({ areas, bounds }: CutPiece): number {
  const low = onPaper(PAPER, bounds.left, bounds.bottom)
  const high = onPaper(PAPER, bounds.right, bounds.top)
  const reach = areas
    .flatMap(({ figure }) => outlinesOf(outlinePath(figure, PAPER)).flat())
    .map(([x, y]) => Math.max(low.x - x, x - high.x, y - low.y, high.y - y))
  return Math.max(0, ...reach) / PAPER.scale
}

describe('every shape', () => {
  const within: readonly Depths[] = [{ lining: [8], fill: [30, 20] }, { lining: [5, 5], fill: [200] }, { fill: [20] }]

  test.each(shapes)('%o: nothing outside the outline, and layers fill it', (shape) => {
    const single = buildBody(shape).stackAxis === null
    for (const depths of within) {
      const plan = planOf(shape, single ? { ...depths, fill: [null] } : depths)
      const cut = cutPiece(plan)
      expect(over(cut)).toBeLessThan(1e-3)
      expect(cut.bounds.right - cut.bounds.left).toBeCloseTo(cut.width, 6)
      expect(cut.bounds.top - cut.bounds.bottom).toBeCloseTo(cut.height, 6)
    }
  })

  test.each(shapes)('%o: drawing, balloons and handles stand on the paper', (shape) => {
    const plan = withShape(bar, 'sheet')
    const filled: Plan = { ...planOf(shape, { lining: [8], fill: [30, 20] }), stages: plan.stages.slice(0, 1) }
    for (const chosen of ['fill[0]', 'lining[0]']) {
      const drawing = drawPiece(filled, { ...WISH, chosen })
      const points = [
        ...drawing.balloons.flatMap(({ at, to }) => [at, to]),
        ...drawing.dimensions.flatMap(({ from, to, text }) => [from, to, text]),
        ...(drawing.grip === null ? [] : [drawing.grip.at]),
      ]
      for (const { x, y } of points) {
        expect(x).toBeGreaterThanOrEqual(0)
        expect(x).toBeLessThanOrEqual(drawing.width)
        expect(y).toBeGreaterThanOrEqual(0)
        expect(y).toBeLessThanOrEqual(drawing.height)
      }
    }
  })

  test.each(shapes)('%o: dragging the handle by one px moves the edge by one px', (shape) => {
    const single = buildBody(shape).stackAxis === null
    const plan = planOf(shape, { lining: [8], fill: single ? [null] : [30, 20] })
    for (const chosen of ['fill[0]', 'lining[0]']) {
      const before = drawPiece(plan, { ...WISH, chosen })
      if (before.grip === null) continue
      const { path, value, mmPerPx, axis, at } = before.grip
      const after = drawPiece(written(plan, path, value + 4 * mmPerPx), { ...WISH, chosen, hold: before.paper })
      const moved = (after.grip?.at[axis] ?? 0) - at[axis]
      expect(moved).toBeCloseTo(4, 6)
    }
  })
})

function written(plan: Plan, path: string, value: number): Plan {
  const copy = structuredClone(plan)
  const keys = path.replaceAll(/\[(\d+)\]/g, '.$1').split('.')
  const last = keys.pop() ?? ''
  const parent = keys.reduce<Record<string, unknown>>(
    (at, key) => at[key] as Record<string, unknown>,
    copy as unknown as Record<string, unknown>,
  )
  parent[last] = value
  return copy
}
