import { describe, expect, test } from 'vitest'
import { sampleCurves } from '../../../src/core/journey/sampling.ts'
import { smooth } from '../../../src/core/journey/series.ts'

const t = Float64Array.from({ length: 60 }, (_, i) => 30 * i * i)
const falling = t.map((at) => 4 + 76 * Math.exp(-at / 9000))
const wave = t.map((at) => 20 + 5 * Math.sin(at / 4000))

function straight(times: readonly number[], values: readonly number[], at: number): number {
  const i = Math.max(
    1,
    times.findIndex((time) => time >= at),
  )
  const share = (at - times[i - 1]!) / (times[i]! - times[i - 1]!)
  return values[i - 1]! + (values[i]! - values[i - 1]!) * share
}

describe('sampleCurves', () => {
  test('straight lines between the moments stay within 0.05 K of every curve', () => {
    const sampled = sampleCurves(t, [falling, wave])
    for (const [index, curve] of [falling, wave].entries()) {
      const exact = smooth(t, curve, 0, t.length - 1)
      for (let k = 0; k <= 5000; k++) {
        const at = (t[59]! * k) / 5000
        expect(Math.abs(straight(sampled.t, sampled.curves[index]!, at) - exact(at))).toBeLessThan(0.05)
      }
    }
  })

  test('a straight curve needs its two ends', () => {
    expect(sampleCurves(t, [t.map((at) => 3 + at / 1000)]).t).toEqual([0, t[59]])
  })

  test('a doubled moment keeps both of its sides', () => {
    const jump = Float64Array.of(0, 10, 10, 20)
    expect(sampleCurves(jump, [Float64Array.of(1, 1, 9, 9)])).toEqual({ t: [0, 10, 10, 20], curves: [[1, 1, 9, 9]] })
  })

  test('a curve that begins late stays unknown before and is kept after', () => {
    const late = Float64Array.from(falling, (value, i) => (i < 20 ? Number.NaN : value))
    const sampled = sampleCurves(t.slice(20), [late.slice(20)])
    expect(sampled.curves[0]!.some(Number.isNaN)).toBe(false)
    const unknown = sampleCurves(t, [Float64Array.from(t, () => Number.NaN), falling])
    expect(unknown.curves[0]!.every(Number.isNaN)).toBe(true)
    expect(unknown.t.length).toBeGreaterThan(10)
  })
})
