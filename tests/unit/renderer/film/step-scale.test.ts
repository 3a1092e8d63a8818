import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

import { cividis } from '../../../../src/renderer/film/cividis.ts'
import {
  colourOf,
  roundEdges,
  stepOf,
  stepScale,
  stripShare,
  temperatureScale,
} from '../../../../src/renderer/film/step-scale.ts'

describe('roundEdges', () => {
  it('gives four to nine even, round steps around any range', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -80, max: 300, noNaN: true }),
        fc.double({ min: 0, max: 400, noNaN: true }),
        (low, span) => {
          const edges = roundEdges(low, low + span)
          expect(edges.length - 1).toBeGreaterThanOrEqual(4)
          expect(edges.length - 1).toBeLessThanOrEqual(9)
          expect(edges[0]!).toBeLessThanOrEqual(low + 1e-6)
          expect(edges.at(-1)!).toBeGreaterThanOrEqual(low + span - 1e-6)
          const step = edges[1]! - edges[0]!
          for (let i = 1; i < edges.length; i++) expect(edges[i]! - edges[i - 1]!).toBeCloseTo(step, 5)
          // Round: one of 1, 2, 2.5, 5 times a power of ten.
          const leading = step / 10 ** Math.floor(Math.log10(step) + 1e-9)
          expect([1, 2, 2.5, 5].some((round) => Math.abs(leading - round) < 1e-4)).toBe(true)
        },
      ),
      { seed: 7 },
    )
  })

  it('fits a common frame', () => {
    expect(roundEdges(-4.6, 2.9)).toEqual([-5, -4, -3, -2, -1, 0, 1, 2, 3])
  })
})

describe('a scale of steps', () => {
  it('begins and ends with the ends of the map', () => {
    const scale = stepScale(0, 8)
    expect(scale.colours[0]).toEqual(cividis[0])
    expect(scale.colours.at(-1)).toEqual(cividis[255])
  })

  it('counts an edge to the step above, and holds what lies beyond', () => {
    const scale = stepScale(0, 8)
    const step = scale.edges[1]!
    expect(stepOf(scale, step - 1e-9)).toBe(0)
    expect(stepOf(scale, step)).toBe(1)
    expect(colourOf(scale, -100)).toEqual(cividis[0])
    expect(colourOf(scale, 100)).toEqual(cividis[255])
  })

  it('is round in the degrees of the reader', () => {
    const edges_F = temperatureScale(-20, 5, 'F').edges.map((edge) => edge * 1.8 + 32)
    for (const edge of edges_F) expect(edge).toBeCloseTo(Math.round(edge), 9)
  })
})

describe('the strip', () => {
  it('keeps its anchors', () => {
    expect([-20, -12, -2, 5, 60, 85].map(stripShare)).toEqual([0, 0.12, 0.42, 0.6, 0.9, 1])
    expect(stripShare(-40)).toBe(0)
    expect(stripShare(200)).toBe(1)
    expect(stripShare(32.5)).toBeCloseTo(0.75, 12)
  })
})
