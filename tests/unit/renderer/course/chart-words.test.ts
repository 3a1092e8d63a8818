import { describe, expect, it } from 'vitest'

import { chartFrame, valueScale } from '../../../../src/renderer/course/chart-frame.ts'
import { chartWords } from '../../../../src/renderer/course/chart-words.ts'
import { courseModel } from '../../../../src/renderer/course/course-model.ts'
import { dangerWords } from '../../../../src/renderer/course/course-sentence.ts'
import { type Box, overlaps } from '../../../../src/renderer/course/label-places.ts'
import { toPixel } from '../../../../src/renderer/course/linear-scale.ts'
import { stripMoments } from '../../../../src/renderer/course/strip-moments.ts'
import { targetMarks } from '../../../../src/renderer/course/target-marks.ts'
import { temperatureAxis } from '../../../../src/renderer/course/temperature-axis.ts'
import { showIn } from '../../../../src/renderer/format.ts'
import { metricUnits } from '../../../../src/renderer/units.ts'
import { syntheticForecast, syntheticPlan } from '../../../support/synthetic-forecast.ts'

const show = showIn(metricUnits, syntheticPlan.startsAt)
const forecast = syntheticForecast()
const model = courseModel(forecast)

function wordsAt(width: number) {
  const frame = chartFrame(width, model)
  const axis = temperatureAxis(model.lowest_C, model.highest_C, 'C', frame.plot.bottom - frame.plot.top)
  const danger = dangerWords(forecast, syntheticPlan.startsAt, show)
  const y = valueScale(frame, axis)
  return {
    frame,
    y,
    words: chartWords(forecast, model.keys, targetMarks(forecast, syntheticPlan, show), danger, frame, y),
  }
}

describe.each([960, 640, 520, 350, 280])('words in a chart %i px wide', (width) => {
  const { frame, y, words } = wordsAt(width)
  const boxes: readonly Box[] = [
    ...words.flags.map((flag) => flag.box),
    ...words.lozenges.flatMap((lozenge) => (lozenge.words ? [lozenge.words.box] : [])),
    ...(words.danger ? [words.danger.box] : []),
    ...words.labels.map((label) => label.box),
  ]

  it('do not lie on each other', () => {
    boxes.forEach((box, index) => {
      for (const other of boxes.slice(index + 1)) expect(overlaps(box, other)).toBe(false)
    })
  })

  it('stay in the figure', () => {
    for (const box of boxes) {
      expect(box.x).toBeGreaterThanOrEqual(0)
      expect(box.x + box.width).toBeLessThanOrEqual(width + 1)
    }
  })

  it('put flags and lozenges where they belong', () => {
    expect(words.flags[0]!.x).toBeCloseTo(toPixel(frame.x, 136), 9)
    expect(words.flags[0]!.foot).toBeCloseTo(toPixel(y, -12), 9)
    expect(words.lozenges[0]!.y).toBeCloseTo(toPixel(y, -12), 9)
  })
})

describe('the chart in two widths', () => {
  it('says less in the narrow one', () => {
    expect(wordsAt(640).words.flags[0]!.text).toBe('asked: core −12 °C by Thu 08:00')
    expect(wordsAt(350).words.flags[0]!.text).toBe('−12 °C by Thu 08:00')
    expect(wordsAt(640).frame.wide).toBe(true)
    expect(wordsAt(500).frame.wide).toBe(false)
  })
})

describe('targetMarks', () => {
  it('leaves out what lies beyond the course', () => {
    const late = { ...forecast, answers: [{ ...forecast.answers[0]!, by_h: 400, at_h: 500 }] }
    expect(targetMarks(late, syntheticPlan, show)).toEqual([{ index: 0, T_C: -12 }])
  })
})

describe('stripMoments', () => {
  const moments = stripMoments(forecast, 14)
  it('keeps its pictures apart, from the start to the end', () => {
    expect(moments[0]).toBe(0)
    expect(moments.at(-1)).toBe(164)
    moments.slice(1).forEach((at_h, index) => {
      expect(at_h - moments[index]!).toBeGreaterThanOrEqual(14 - 1e-9)
      expect(at_h - moments[index]!).toBeLessThan(28 + 1e-9)
    })
  })

  it('shows the moments that answers are likely at', () => {
    expect(moments).toContain(forecast.answers[0]!.at_h)
  })
})
