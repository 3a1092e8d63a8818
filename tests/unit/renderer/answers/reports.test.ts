import { describe, expect, it } from 'vitest'
import type { CarriedReport, Forecast, GrowthReport, KillingReport } from '../../../../src/core/forecast-types.ts'
import { message } from '../../../../src/core/messages.ts'
import { reportsOf } from '../../../../src/renderer/answers/reports.ts'
import { syntheticForecast } from '../../../support/synthetic-forecast.ts'

const why = message('check-with-probe')
const where = { x: 0.5, y: 0.1, z: 0.5 }
const carried = (answer: CarriedReport['answer'], occasion: CarriedReport['occasion']): CarriedReport => ({
  layer: 'fill[0]',
  title: 'Cream',
  occasion,
  at_h: 46,
  answer,
  where,
  load_Pa: 900,
  why,
  notes: [],
  source: 'a book',
})
const growth = (log10?: number): GrowthReport => ({
  organism: 'bacillus',
  name: 'Bacillus cereus',
  yardstick_log10: 2,
  ...(log10 === undefined ? {} : { log10, where, layer: 'fill[0]' }),
  why,
  notes: [],
  source: 'a journal',
})
const killing: KillingReport = {
  target: 'egg',
  title: 'Raw egg heated enough?',
  answer: 'not reached',
  where,
  layer: 'fill[0]',
  why,
  notes: [],
  source: 'a code',
}

const of = (parts: Partial<Forecast>) =>
  reportsOf(
    { ...syntheticForecast('bar'), carried: [], coats: [], killing: [], growth: [], ...parts },
    '2027-03-12T16:00',
  )

describe('what is told unasked', () => {
  it('asks whether a layer carries, when, with the sign of its answer', () => {
    const [unmoulded, end] = of({ carried: [carried('carries', 'unmoulded'), carried('gives way', 'end')] })
    expect(unmoulded).toMatchObject({ word: 'Carries', mark: 'yes', place: { where, layer: 'fill[0]' } })
    expect(unmoulded?.question).toBe('Does Cream carry out of its mould, Sun 14:00?')
    expect(end).toMatchObject({ word: 'Gives way', mark: 'no' })
    expect(of({ carried: [carried('warning', 'loaded')] })[0]).toMatchObject({ word: 'Warning', mark: 'not yet' })
  })

  it('shows growth in half powers of ten and never as a verdict', () => {
    const [some, little, much, none] = of({ growth: [growth(2.6), growth(0.1), growth(9), growth()] })
    expect(some).toMatchObject({ word: '2.5 powers of ten', mark: 'none' })
    expect(little?.word).toBe('less than half a power of ten')
    expect(much?.word).toBe('more than 6 powers of ten')
    expect(none).toMatchObject({ word: 'Not computed', mark: 'none' })
    expect(none?.place).toBeUndefined()
  })

  it('tells raw egg before growth, each with its source', () => {
    const reports = of({ growth: [growth(1)], killing: [killing] })
    expect(reports.map(({ word }) => word)).toEqual(['Not reached', '1 power of ten'])
    expect(reports.map(({ source }) => source)).toEqual(['a code', 'a journal'])
  })
})
