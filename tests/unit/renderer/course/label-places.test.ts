import { describe, expect, it } from 'vitest'

import { distanceTo, inkCurve, overlaps, placeLabels } from '../../../../src/renderer/course/label-places.ts'

const x = { from: 0, to: 100, start: 40, end: 640 }
const y = { from: -20, to: 80, start: 340, end: 30 }
const frame = { x: 40, y: 30, width: 600, height: 310 }
const times = Array.from({ length: 201 }, (_, index) => index / 2)
const curve = (key: string, of: (time: number) => number) => inkCurve(key, times, times.map(of), x, y)

describe('placeLabels', () => {
  const curves = [
    curve('core', (time) => 80 * Math.exp(-time / 30) - 10),
    curve('mean', (time) => 70 * Math.exp(-time / 20) - 10),
    curve('surface', (time) => 40 * Math.exp(-time / 8) - 12),
    curve('air', () => -18),
  ]
  const labels = placeLabels(curves, (key) => key, frame, [{ x: 400, y: 40, width: 230, height: 40 }])

  it('labels every curve once, inside the plot', () => {
    expect(labels.map((label) => label.key)).toEqual(['core', 'mean', 'surface', 'air'])
    for (const { box } of labels) {
      expect(box.x).toBeGreaterThanOrEqual(frame.x)
      expect(box.x + box.width).toBeLessThanOrEqual(frame.x + frame.width)
    }
  })

  it('keeps words off each other, off what is written and off the lines', () => {
    labels.forEach((label, index) => {
      for (const other of labels.slice(index + 1)) expect(overlaps(label.box, other.box)).toBe(false)
      expect(overlaps(label.box, { x: 400, y: 40, width: 230, height: 40 })).toBe(false)
      for (const line of curves) expect(distanceTo(line, label.box)).toBeGreaterThan(0)
    })
  })

  it('stands where the curves are apart', () => {
    // Two curves that run together for the first half only.
    const [a, b] = [curve('a', () => 20), curve('b', (time) => (time < 50 ? 21 : 21 - (time - 50)))]
    for (const label of placeLabels([a, b], (key) => key, frame, [])) expect(label.anchor.x).toBeGreaterThan(440)
  })

  it('knows the full height of a jump', () => {
    const jump = inkCurve('air', [0, 50, 50, 100], [70, 70, -10, -10], x, y)
    expect(distanceTo(jump, { x: 335, y: 180, width: 20, height: 18 })).toBe(0)
    expect(distanceTo(jump, { x: 420, y: 180, width: 20, height: 18 })).toBeGreaterThan(30)
  })

  it('leaves a curve without a label rather than write over something', () => {
    expect(placeLabels([curve('a', () => 20)], (key) => key, frame, [frame])).toEqual([])
  })
})
