import { describe, expect, it } from 'vitest'

import type { Forecast } from '../../../../src/core/forecast-types.ts'
import { actionWords, stageLetter } from '../../../../src/core/words/stage.ts'
import { courseModel } from '../../../../src/renderer/course/course-model.ts'
import { courseSentence, dangerWords } from '../../../../src/renderer/course/course-sentence.ts'
import { courseTable } from '../../../../src/renderer/course/course-table.ts'
import { readCurve } from '../../../../src/renderer/course/read-curve.ts'
import { showIn } from '../../../../src/renderer/format.ts'
import { metricUnits } from '../../../../src/renderer/units.ts'
import { syntheticForecast, syntheticPlan } from '../../../support/synthetic-forecast.ts'

const startsAt = '2027-03-12T16:00'
const show = showIn(metricUnits, startsAt)
const forecast = syntheticForecast()
const straight = (core: readonly number[]): Forecast => ({
  ...forecast,
  times_h: [0, 10, 20],
  curves: { core },
  bands: {},
  danger: { ...forecast.danger, longest_h: 5.5, core_h: 5.5 },
})

describe('dangerWords', () => {
  it('says how long the core is inside and until when', () => {
    const words = dangerWords(straight([80, -20, -20]), startsAt, show)
    expect(words.title).toBe('Danger zone, 5 to 60 °C')
    // From 80 to −20 °C in 10 h: enters at 2 h, leaves at 7.5 h, which is Friday 23:30.
    expect(words.long).toBe('The core is inside for 5 h 30 min, until Fri 23:30')
    expect(words.short).toBe('core inside for 5 h 30 min')
  })

  it('says so where the core stays inside or never is', () => {
    expect(dangerWords(straight([80, 40, 20]), startsAt, show).long).toMatch(/, and still at the end$/)
    expect(dangerWords(straight([2, 1, 0]), startsAt, show).long).toBe('The core is never inside')
  })

  it('gives the band where there is one', () => {
    expect(dangerWords(forecast, startsAt, show).long).toMatch(/inside for [\d½]+ h \([\d½]+ to [\d½]+ h\), until/)
  })

  it('speaks the reader’s degrees', () => {
    const fahrenheit = showIn({ ...metricUnits, temperature: 'F' }, startsAt)
    expect(dangerWords(forecast, startsAt, fahrenheit).title).toBe('Danger zone, 41 to 140 °F')
  })
})

describe('courseSentence', () => {
  it('names the ends, the zone and the longest place', () => {
    const other = { ...straight([80, -20, -20]), danger: { ...forecast.danger, longest_h: 8, core_h: 5.5 } }
    expect(courseSentence(other, startsAt, show)).toBe(
      'In 20 h the core goes from 80.0 °C to −20.0 °C. The core is between 5 and 60 °C for 5 h 30 min, until Fri 23:30; the place that stays longest is there for 8 h.',
    )
  })

  it('tells a course that goes up and comes down again', () => {
    expect(courseSentence(straight([20, 96, 60]), startsAt, show)).toContain('by way of 96.0 °C')
  })
})

describe('the table', () => {
  const table = courseTable(forecast)

  it('has the numbers of the curves themselves', () => {
    for (const row of table.rows) {
      table.keys.forEach((key, index) => {
        expect(row.values[index]).toBe(readCurve(forecast.times_h, forecast.curves[key]!, row.at_h))
      })
    }
  })

  it('has a row at every stage’s start, at what was asked and at the end', () => {
    const moments = table.rows.map((row) => row.at_h)
    expect(moments).toEqual(expect.arrayContaining([...forecast.stages.map((stage) => stage.from_h), 136, 64, 164]))
    expect(table.rows.length).toBeLessThan(60)
    expect(table.rows.find((row) => row.at_h === 20)?.stage).toBe('Chest freezer')
  })
})

describe('courseModel', () => {
  it('thins what is drawn and keeps the core in front', () => {
    const model = courseModel(forecast)
    expect(model.rows.length).toBeLessThanOrEqual(300)
    expect(model.keys[0]).toBe('core')
    expect(model.keys[model.backToFront.at(-1)!]).toBe('core')
    expect([...model.backToFront].sort()).toEqual(model.keys.map((_, index) => index))
  })
})

describe('stage letters and actions', () => {
  it('go on after Z', () => {
    expect([0, 1, 25, 26, 51, 52].map(stageLetter)).toEqual(['A', 'B', 'Z', 'AA', 'AZ', 'BA'])
  })

  it('says what is done', () => {
    const plan = structuredClone(syntheticPlan)
    plan.stages[1]!.start = [
      { do: 'pour', material: 'cream', thickness_mm: 60, start_C: 70 },
      { do: 'cover', with: 'film', faces: ['top'] },
      { do: 'unmould' },
    ]
    expect(actionWords(plan, 1, show)).toEqual(['pour cream, 60 mm at 70.0 °C', 'cover with film on top', 'unmould'])
    expect(actionWords(plan, 0, show)).toEqual([])
    plan.stages[1]!.start = [
      { do: 'turn' },
      { do: 'stand', on: 'spacers' },
      { do: 'stand', on: 'board', board_mm: 18 },
      { do: 'coat', material: 'chocolate', thickness_mm: 3, start_C: 32, faces: ['top'] },
      { do: 'cut', across: 4, slice_mm: 25 },
    ]
    expect(actionWords(plan, 1, show)).toEqual([
      'turn over',
      'stand on spacers',
      'stand on the board of 18 mm',
      'coat with chocolate, 3 mm at 32.0 °C on top',
      'cut 4 across, slices of 25 mm',
    ])
  })
})
