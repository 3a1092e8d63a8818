import { describe, expect, test } from 'vitest'

import { chartFrame, valueScale } from '../../../../src/renderer/course/chart-frame.ts'
import { courseModel } from '../../../../src/renderer/course/course-model.ts'
import { curveWithin, detailRegion } from '../../../../src/renderer/course/detail-region.ts'
import type { TargetMark } from '../../../../src/renderer/course/target-marks.ts'
import { temperatureAxis } from '../../../../src/renderer/course/temperature-axis.ts'
import { syntheticForecast } from '../../../support/synthetic-forecast.ts'

const forecast = syntheticForecast()
const model = courseModel(forecast)
const axis = temperatureAxis(model.lowest_C, model.highest_C, 'C', 310)
const mark = (early_h: number, at_h: number, late_h?: number): TargetMark => ({
  index: 0,
  T_C: 10,
  likely: { at_h, early_h, ...(late_h === undefined ? {} : { late_h }), words: 'likely' },
})
const regionOf = (marks: readonly TargetMark[], width: number) => {
  const frame = chartFrame(width, model)
  return detailRegion(forecast, marks, frame, valueScale(frame, axis))
}

describe('the place that is drawn larger', () => {
  test('is where the core passes what was asked, with room to both sides', () => {
    const region = regionOf([mark(30, 31, 33)], 700)
    expect(region).toBeDefined()
    expect(region!.from_h).toBeLessThan(30)
    expect(region!.to_h).toBeGreaterThan(33)
    expect(region!.low_C).toBeLessThan(10)
    expect(region!.high_C).toBeGreaterThan(10)
  })

  test('is none where nothing is asked or the late end lies open', () => {
    expect(regionOf([], 700)).toBeUndefined()
    expect(regionOf([mark(30, 31)], 700)).toBeUndefined()
  })

  test('a curve is read at both ends of it', () => {
    expect(curveWithin([0, 10, 20], [100, 50, 0], { from_h: 5, to_h: 15 })).toEqual([
      { at_h: 5, value: 75 },
      { at_h: 10, value: 50 },
      { at_h: 15, value: 25 },
    ])
    expect(curveWithin([0, 10, 20], [null, 50, 0], { from_h: 5, to_h: 15 }).map(({ at_h }) => at_h)).toEqual([10, 15])
  })
})
