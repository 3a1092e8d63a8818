import { describe, expect, it } from 'vitest'

import type { SectionFilm, SectionGrid } from '../../../../src/core/forecast-types.ts'
import { filmMoments, frameAt, nextMoment, previousMoment, rangeOf } from '../../../../src/renderer/film/film-frame.ts'

const grid = {} as SectionGrid
const film = (times_h: readonly number[], values: readonly number[]): SectionFilm => ({
  grid,
  frame: { left: 0, bottom: 0, width: 1, height: 1, turned: false },
  layers: [],
  times_h,
  T_C: values.map((value) => Float32Array.of(value, value + 1)),
  danger_h: Float32Array.of(0, 0),
  set_pct: [],
  ice_pct: [],
  setUnknown: [],
})
const films = [film([0, 2, 4], [80, 60, 50]), film([4, 10], [20, 8])]

describe('frameAt', () => {
  it('gives kept frames as they are and straight lines between', () => {
    expect([...frameAt(films, 2)!.T_C]).toEqual([60, 61])
    expect([...frameAt(films, 1)!.T_C]).toEqual([70, 71])
    expect([...frameAt(films, 7)!.T_C]).toEqual([14, 15])
  })

  it('takes the new shape where the shape changes, and holds the ends', () => {
    expect(frameAt(films, 4)!.film).toBe(films[1])
    expect([...frameAt(films, 4)!.T_C]).toEqual([20, 21])
    expect([...frameAt(films, 3.9999999)!.T_C][0]).toBeCloseTo(50, 4)
    expect([...frameAt(films, -1)!.T_C]).toEqual([80, 81])
    expect([...frameAt(films, 99)!.T_C]).toEqual([8, 9])
  })

  it('has nothing to show without films', () => {
    expect(frameAt([], 3)).toBeUndefined()
  })
})

describe('stepping', () => {
  const moments = filmMoments(films)
  it('goes from frame to frame and stays at the ends', () => {
    expect(moments).toEqual([0, 2, 4, 10])
    expect(nextMoment(moments, 2)).toBe(4)
    expect(nextMoment(moments, 3)).toBe(4)
    expect(nextMoment(moments, 10)).toBe(10)
    expect(previousMoment(moments, 3)).toBe(2)
    expect(previousMoment(moments, 0)).toBe(0)
  })
})

describe('rangeOf', () => {
  it('spans all fields', () => {
    expect(rangeOf([Float32Array.of(3, 9), Float32Array.of(-2, 4)])).toEqual([-2, 9])
  })
})
