import { describe, expect, it } from 'vitest'

import { indexAt, readCurve, staysBetween, totalOf } from '../../../../src/renderer/course/read-curve.ts'

const times = [0, 1, 2, 2, 4]
const values = [10, 20, 30, 80, 60]

describe('readCurve', () => {
  it('reads points, straight lines, and the far side of a jump', () => {
    expect(readCurve(times, values, 1)).toBe(20)
    expect(readCurve(times, values, 1.5)).toBe(25)
    expect(readCurve(times, values, 2)).toBe(80)
    expect(readCurve(times, values, 3)).toBe(70)
    expect(readCurve(times, values, 4)).toBe(60)
  })

  it('is nothing before the curve begins', () => {
    expect(readCurve([0, 1, 2], [null, 5, 7], 0.5)).toBeNull()
    expect(readCurve([0, 1, 2], [null, 5, 7], 1.5)).toBe(6)
  })

  it('finds the later of two equal moments', () => {
    expect(indexAt(times, 2)).toBe(3)
    expect(indexAt(times, 1.99)).toBe(1)
  })
})

describe('staysBetween', () => {
  it('cuts straight lines where they enter and leave', () => {
    expect(staysBetween([0, 8], [85, 5], 5, 60)).toEqual([{ from_h: 2.5, to_h: 8 }])
    expect(staysBetween([0, 10], [80, -20], 5, 60)).toEqual([{ from_h: 2, to_h: 7.5 }])
  })

  it('joins what touches and keeps apart what does not', () => {
    const stays = staysBetween([0, 1, 2, 3, 4], [70, 50, 70, 50, 40], 5, 60)
    expect(stays).toEqual([
      { from_h: 0.5, to_h: 1.5 },
      { from_h: 2.5, to_h: 4 },
    ])
    expect(totalOf(stays)).toBe(2.5)
  })

  it('counts a level course inside, and none outside', () => {
    expect(staysBetween([0, 3], [20, 20], 5, 60)).toEqual([{ from_h: 0, to_h: 3 }])
    expect(staysBetween([0, 3], [-5, 2], 5, 60)).toEqual([])
  })
})
