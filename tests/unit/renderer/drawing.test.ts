import { describe, expect, test } from 'vitest'

import type { Plan } from '../../../src/core/plan/schema/plan.ts'
import { writeAt } from '../../../src/renderer/edits/path.ts'
import { withShape } from '../../../src/renderer/edits/shape.ts'
import { cutPiece } from '../../../src/renderer/section/areas.ts'
import { BALLOON_RADIUS, spread } from '../../../src/renderer/section/balloons.ts'
import { drawPiece, placeOnPaper } from '../../../src/renderer/section/drawing.ts'
import { frameOf } from '../../../src/renderer/section/figures.ts'
import { ball, bar } from './plans.ts'

const wish = { width: 344, tallest: 250, chosen: null, lengthUnit: 'mm' } as const

/** Smallest box around the numbers of a path that uses M, L, H, V and absolute coordinates only. */
function extent(path: string): { left: number; right: number; top: number; bottom: number } {
  const xs: number[] = []
  const ys: number[] = []
  for (const [, letter, rest] of path.matchAll(/([MLHV])([^MLHVZ]*)/g)) {
    const values = (rest ?? '')
      .trim()
      .split(/[\s,]+/)
      .map(Number)
    if (letter === 'H') xs.push(...values)
    else if (letter === 'V') ys.push(...values)
    else for (const [i, value] of values.entries()) (i % 2 === 0 ? xs : ys).push(value)
  }
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) }
}

const areaOf = (plan: Plan, name: string, more = {}) => {
  const drawing = drawPiece(plan, { ...wish, ...more })
  const area = drawing.areas.find((one) => one.name === name)
  if (area === undefined) throw new Error(`no ${name}`)
  return { ...drawing, area, box: extent(area.path) }
}

describe('the cut piece', () => {
  test('height is the bottom lining and everything filled and poured', () => {
    // 10 + 80 + 20 + 30 mm
    expect(cutPiece(bar).height).toBe(140)
    expect(cutPiece(bar).width).toBe(200)
  })

  test('the mould stands outside: its thickness at the sides and below, none at the open top', () => {
    expect(cutPiece(bar).bounds).toEqual({ left: -1, bottom: -1, right: 201, top: 140 })
  })

  test('a ball has rings outside in and one fill that takes the rest', () => {
    const frames = cutPiece(ball).areas.map(({ figure }) => figure.loops(0).map((loop) => frameOf([loop])))
    const square = (from: number, to: number) => ({ left: from, bottom: from, right: to, top: to })
    expect(frames).toEqual([[square(0, 240), square(6, 234)], [square(6, 234)]])
  })

  test('a sheet is lined below only, and goes on at both ends', () => {
    const sheet = withShape(bar, 'sheet')
    const cut = cutPiece(sheet)
    expect(cut.broken).toBe(true)
    for (const { row, figure } of cut.areas) {
      const { left, right } = frameOf(figure.loops(0))
      if (row.list !== 'mould') expect([left, right]).toEqual([0, cut.width])
    }
  })
})

describe('the drawing', () => {
  test.each(['bar', 'block', 'round'] as const)('%s: one scale in both directions', (kind) => {
    const { box, paper, size } = areaOf(withShape(bar, kind), 'fill[0]')
    // lining of 10 mm at both sides; a fill of 80 mm
    expect(box.right - box.left).toBeCloseTo((size.width - 20) * paper.scale, 1)
    expect(box.bottom - box.top).toBeCloseTo(80 * paper.scale, 1)
  })

  test('layers lie on each other without a gap', () => {
    const { areas } = drawPiece(bar, wish)
    const boxes = ['fill[0]', 'fill[1]', 'stages[1].start[1]'].map((name) =>
      extent(areas.find((area) => area.name === name)?.path ?? ''),
    )
    expect(boxes[1]?.bottom).toBeCloseTo(boxes[0]?.top ?? 0, 2)
    expect(boxes[2]?.bottom).toBeCloseTo(boxes[1]?.top ?? 0, 2)
  })

  test('a layer thinner than 3 px is drawn 3 px and says so, on its own place', () => {
    const thin = writeAt(bar, 'piece.fill[1].thickness_mm', 0.5)
    const { area, box } = areaOf(thin, 'fill[1]')
    expect(area.thicker).toBe(true)
    expect(box.bottom - box.top).toBeCloseTo(3, 2)
    expect(box.bottom).toBeCloseTo(areaOf(thin, 'fill[0]').box.top, 2)
    expect(areaOf(bar, 'fill[1]').area.thicker).toBe(false)
    expect(areaOf(bar, 'mould[0]').area.thicker).toBe(true)
  })

  test('nothing is drawn beyond the paper, whatever the proportions', () => {
    for (const [width, height] of [
      [20, 600],
      [2000, 10],
      [200, 200],
      [5, 5],
    ] as const) {
      const plan = writeAt(writeAt(bar, 'piece.shape.width_mm', width), 'piece.fill[0].thickness_mm', height)
      const drawing = drawPiece(plan, wish)
      for (const { path } of drawing.areas) {
        const box = extent(path)
        expect(box.left).toBeGreaterThanOrEqual(0)
        expect(box.right).toBeLessThanOrEqual(drawing.width)
        expect(box.top).toBeGreaterThanOrEqual(0)
        expect(box.bottom).toBeLessThanOrEqual(drawing.height)
      }
    }
  })

  test('every number in the drawing is the plan’s own, and a sum is no field', () => {
    const { dimensions } = drawPiece(bar, wish)
    const values = Object.fromEntries(dimensions.map(({ name, value, path }) => [name, [value, path]]))
    expect(values.across).toEqual([200, 'piece.shape.width_mm'])
    expect(values['fill[0]']).toEqual([80, 'piece.fill[0].thickness_mm'])
    expect(values.height).toEqual([140, null])
  })

  test('numbers in the chain keep clear of each other; the chosen layer’s is always there', () => {
    const layers = Array.from({ length: 8 }, () => ({ material: 'sponge', thickness_mm: 8, start_C: 20 }))
    const many = writeAt(bar, 'piece.fill', layers)
    for (const chosen of ['fill[3]', 'fill[7]', null]) {
      const chain = drawPiece(many, { ...wish, chosen }).dimensions.filter(({ name }) => name.startsWith('fill'))
      if (chosen !== null) expect(chain.map(({ name }) => name)).toContain(chosen)
      const ys = chain.map(({ text }) => text.y).sort((a, b) => a - b)
      for (let i = 1; i < ys.length; i += 1) expect((ys[i] ?? 0) - (ys[i - 1] ?? 0)).toBeGreaterThanOrEqual(19.9)
    }
  })

  test('balloons never cover each other, and each points into its layer', () => {
    const { balloons, areas } = drawPiece(bar, wish)
    expect(balloons).toHaveLength(areas.length)
    for (const [i, a] of balloons.entries()) {
      for (const b of balloons.slice(i + 1))
        expect(Math.abs(a.at.y - b.at.y)).toBeGreaterThanOrEqual(2 * BALLOON_RADIUS)
    }
    const tip = balloons.find(({ name }) => name === 'fill[0]')?.to ?? { x: 0, y: 0 }
    const box = areaOf(bar, 'fill[0]').box
    expect(tip.x > box.left && tip.x < box.right && tip.y > box.top && tip.y < box.bottom).toBe(true)
  })

  test('positions that are spread stay in order, apart, and inside where they fit', () => {
    expect(spread([10, 12, 14], 0, 300)).toEqual([10, 40, 70])
    expect(spread([290, 295], 0, 300)).toEqual([270, 300])
    expect(spread([50, 50, 50], 0, 40)).toEqual([0, 30, 60])
  })

  test('the scale bar is a round measure of the person’s unit, as long as it says', () => {
    const { bar: metric, paper } = drawPiece(bar, wish)
    // 194 px for 202 mm: 100 mm are 96 px, 250 mm would be wider than 120 px
    expect(metric.words).toBe('100 mm')
    expect(metric.width).toBeCloseTo(100 * paper.scale, 6)
    const { bar: inches } = drawPiece(bar, { ...wish, lengthUnit: 'in' })
    expect(inches.width).toBeCloseTo(Number.parseFloat(inches.words) * 25.4 * paper.scale, 6)
  })

  test('the grip of a fill lies on its upper edge, and a px up makes it thicker by one px of scale', () => {
    const { grip, paper, box } = { ...areaOf(bar, 'fill[0]', { chosen: 'fill[0]' }) }
    expect(grip?.at.y).toBeCloseTo(box.top, 2)
    expect(grip?.mmPerPx).toBeCloseTo(-1 / paper.scale, 9)
    expect(grip?.path).toBe('piece.fill[0].thickness_mm')
  })

  test('held paper keeps its scale while the layer grows', () => {
    const { paper } = drawPiece(bar, wish)
    const taller = writeAt(bar, 'piece.fill[0].thickness_mm', 160)
    const { area } = areaOf(taller, 'fill[0]', { hold: paper })
    expect(extent(area.path).bottom - extent(area.path).top).toBeCloseTo(160 * paper.scale, 1)
  })

  test('places are shares of the piece’s box, y upward', () => {
    const drawing = drawPiece(bar, wish)
    const { left, right, top, bottom } = drawing.piece
    expect(placeOnPaper(drawing, { x: 0, y: 1 })).toEqual({ x: left, y: top })
    expect(placeOnPaper(drawing, { x: 1, y: 0 })).toEqual({ x: right, y: bottom })
  })
})
