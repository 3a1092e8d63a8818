import { describe, expect, it } from 'vitest'

import { readCurve } from '../../../../src/renderer/course/read-curve.ts'
import { thinCurves } from '../../../../src/renderer/course/thin-curves.ts'

const times = Array.from({ length: 3001 }, (_, index) => index / 20)
const core = times.map((time) => 80 * Math.exp(-time / 40) - 15 + (time > 100 && time < 100.2 ? 4 : 0))
const surface = times.map((time) => 50 * Math.exp(-time / 5) + 3 * Math.sin(time / 3))

describe('thinCurves', () => {
  const kept = thinCurves(times, [core, surface], 300)
  const pick = (values: readonly (number | null)[]): readonly (number | null)[] =>
    kept.map((index) => values[index] ?? null)

  it('keeps few points and strays little', () => {
    expect(kept.length).toBeLessThanOrEqual(300)
    const shown = kept.map((index) => times[index]!)
    for (const curve of [core, surface]) {
      const worst = Math.max(
        ...times.map((time, index) => Math.abs(readCurve(shown, pick(curve), time)! - curve[index]!)),
      )
      // `enough` of thinCurves.
      expect(worst).toBeLessThanOrEqual(0.05)
    }
  })

  it('keeps ends, extremes and a short peak', () => {
    for (const curve of [core, surface]) {
      expect(pick(curve)).toContain(Math.max(...curve))
      expect(pick(curve)).toContain(Math.min(...curve))
    }
    expect(kept[0]).toBe(0)
    expect(kept.at(-1)).toBe(3000)
    expect(Math.max(...pick(core).slice(150).map(Number))).toBeLessThan(80)
    expect(kept.some((index) => times[index]! > 100 && times[index]! < 100.2)).toBe(true)
  })

  it('keeps both sides of a jump and where a curve begins', () => {
    const jump = thinCurves(
      [0, 1, 2, 2, 3, 4, 5],
      [
        [1, 1, 1, 9, 9, 9, 9],
        [null, null, 3, 3, 3, 3, 3],
      ],
      300,
    )
    expect(jump).toEqual(expect.arrayContaining([0, 1, 2, 3, 6]))
  })

  it('stops at the number asked for', () => {
    expect(thinCurves(times, [surface], 40).length).toBe(40)
  })
})
