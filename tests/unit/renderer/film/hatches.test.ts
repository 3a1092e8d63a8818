import { describe, expect, it } from 'vitest'

import { hatches, hatchOf } from '../../../../src/renderer/film/hatches.ts'
import { stepScale } from '../../../../src/renderer/film/step-scale.ts'

const SAMPLES = 400

/** Ink of a hatch as a share of its square: length of its lines times their width; dots count as discs. */
function inkOf({ lines, width, size }: (typeof hatches)[number]): number {
  const dots = lines.match(/h0\.01/g)?.length ?? 0
  let length = 0
  for (const [, x0, y0, to] of lines.matchAll(/M(-?[\d.]+) (-?[\d.]+)((?:[LHV]-?[\d.]+(?: -?[\d.]+)?))/g)) {
    const kind = to!.charAt(0)
    const [a = 0, b = 0] = to!.slice(1).split(' ').map(Number)
    const [x, y] = kind === 'H' ? [a, Number(y0)] : kind === 'V' ? [Number(x0), a] : [a, b]
    const from = [Number(x0), Number(y0)] as const
    const whole = Math.hypot(x - from[0], y - from[1])
    const inside = (value: number): boolean => value >= 0 && value <= size
    for (let i = 0; i < SAMPLES; i++) {
      const share = (i + 0.5) / SAMPLES
      if (inside(from[0] + share * (x - from[0])) && inside(from[1] + share * (y - from[1]))) length += whole / SAMPLES
    }
  }
  return (length * width + dots * Math.PI * (width / 2) ** 2) / size ** 2
}

describe('hatches', () => {
  it('has one for every step that a scale may have, each of its own', () => {
    for (const span of [0.8, 3, 6, 7, 9, 24, 70, 100, 400])
      expect(stepScale(0, span).colours.length).toBeLessThanOrEqual(hatches.length)
    expect(new Set(hatches.map(({ name }) => name)).size).toBe(hatches.length)
    expect(new Set(hatches.map(({ lines, size }) => `${lines} ${size}`)).size).toBe(hatches.length)
  })

  it('gets denser from step to step, so that the order is seen in grey', () => {
    expect(hatchOf(0).lines).toBe('')
    for (let step = 1; step < hatches.length; step++)
      expect(inkOf(hatchOf(step))).toBeGreaterThan(inkOf(hatchOf(step - 1)))
  })
})
