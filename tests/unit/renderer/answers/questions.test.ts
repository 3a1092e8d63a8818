import { describe, expect, it } from 'vitest'

import type { Answer } from '../../../../src/core/forecast-types.ts'
import { message } from '../../../../src/core/messages.ts'
import { powerOfTen } from '../../../../src/renderer/answers/power-of-ten.ts'
import {
  byUrgency,
  firstOpen,
  likelyWords,
  marginWords,
  questionOf,
  ruleIndex,
  ruleMarks,
  ruleWords,
  stepWords,
  verdictWords,
} from '../../../../src/renderer/answers/questions.ts'
import { sentence } from '../../../../src/renderer/answers/sentence.ts'
import { trackScale } from '../../../../src/renderer/answers/track-scale.ts'
import { showIn } from '../../../../src/renderer/format.ts'
import { metricUnits } from '../../../../src/renderer/units.ts'
import { syntheticForecast } from '../../../support/synthetic-forecast.ts'

const startsAt = '2027-03-12T16:00'
const show = showIn(metricUnits, startsAt)
const fahrenheit = showIn({ ...metricUnits, temperature: 'F' }, startsAt)
const forecast = syntheticForecast()
const answer = (over: Partial<Answer>): Answer => ({
  target: 'frozen',
  index: 0,
  answer: 'yes',
  where: { x: 0.5, y: 0.5, z: 0.5 },
  layer: 'fill[0]',
  why: message('ends-ignored', { ratio: 6, of: 'thick' }),
  ...over,
})

describe('questionOf', () => {
  it('asks in the reader’s degrees', () => {
    expect(questionOf({ kind: 'frozen', core_C: -12 }, show)).toBe('Frozen to the core, −12 °C?')
    expect(questionOf({ kind: 'cooled', core_C: 5 }, fahrenheit)).toBe('Cooled to 41 °F?')
    expect(questionOf({ kind: 'baked', core_C: 94 }, show)).toBe('Baked, core at 94 °C?')
    expect(questionOf({ kind: 'baked', core_C: 94, most_C: 98.5 }, show)).toBe('Baked, core 94 to 98.5 °C?')
  })
})

describe('marginWords', () => {
  it('tells what is left, with its range', () => {
    expect(marginWords(answer({ at_h: 71, early_h: 67, late_h: 76, by_h: 136 }))).toBe('65 h to spare (60 h to 69 h)')
  })

  it('tells what a late end would cost', () => {
    expect(marginWords(answer({ at_h: 131, early_h: 122, late_h: 141, by_h: 136 }))).toBe(
      '5 h to spare (5 h too late to 14 h to spare)',
    )
  })

  it('tells a miss, and luck where there could be some', () => {
    expect(marginWords(answer({ at_h: 141.66, early_h: 132, late_h: 151, by_h: 136 }))).toBe(
      '5 h 40 min too late (15 h too late to 4 h to spare)',
    )
    expect(marginWords(answer({ at_h: 150, early_h: 140, late_h: 160, by_h: 136 }))).toBe('14 h too late (4 h to 24 h)')
  })

  it('says nothing where nothing was asked or reached', () => {
    expect(marginWords(answer({ at_h: 20 }))).toBeUndefined()
    expect(marginWords(answer({ by_h: 20 }))).toBeUndefined()
  })
})

describe('likelyWords', () => {
  it('never shows a moment without its band where there is one', () => {
    expect(likelyWords(answer({ at_h: 141.66, early_h: 132.25, late_h: 151.4 }), startsAt)).toEqual({
      moment: 'Thu 13:40',
      band: '04:15 to 23:25',
    })
    expect(likelyWords(answer({}), startsAt)).toBeUndefined()
  })
})

describe('order', () => {
  it('puts what is open before what is answered, by the time asked', () => {
    const answers = [
      answer({ index: 0, answer: 'yes', by_h: 5 }),
      answer({ index: 1, answer: 'not yet', by_h: 90 }),
      answer({ index: 2, answer: 'no', by_h: 40 }),
      answer({ index: 3, answer: 'yes', by_h: 2 }),
    ]
    expect(byUrgency(answers).map((one) => one.index)).toEqual([2, 1, 3, 0])
  })

  it('opens the first that is not answered with yes, a rule where no target is', () => {
    expect(firstOpen(forecast)).toBe(0)
    const answered = { ...forecast, answers: [answer({})] }
    expect(firstOpen(answered)).toBe(ruleIndex(answered, 0))
    expect(firstOpen({ ...answered, safety: [] })).toBeUndefined()
  })
})

describe('words', () => {
  it('never claim more than the rule says', () => {
    const said = [verdictWords, ruleWords, ruleMarks, stepWords].flatMap((words) => Object.values(words)).join(' ')
    expect(said).not.toMatch(/safe|guarantee|perfect|optimal/i)
    expect(ruleWords['does not meet']).toBe('Does not meet')
  })

  it('become sentences', () => {
    expect(sentence('ends ignored: 6 times as long')).toBe('Ends ignored: 6 times as long.')
    expect(sentence('Done.')).toBe('Done.')
  })

  it('write small numbers as powers of ten', () => {
    expect(powerOfTen(3e-10)).toBe('3 × 10⁻¹⁰')
    expect(powerOfTen(0)).toBe('0')
  })
})

describe('trackScale', () => {
  it('holds early, likely, late and asked, with days on a long track', () => {
    const scale = trackScale(answer({ at_h: 141, early_h: 110, late_h: 160, by_h: 136 }), startsAt, 300)!
    expect(scale.from_h).toBeLessThan(110)
    expect(scale.to_h).toBeGreaterThan(160)
    // Wednesday and Thursday midnights are 104 and 128 h after Friday 16:00.
    expect(scale.ticks.map((tick) => tick.at_h)).toEqual([104, 128, 152])
    expect(scale.between.map((day) => day.word)).toEqual(['Wed', 'Thu', 'Fri'])
  })

  it('has clock hours on a short one, and the day’s name at midnight', () => {
    const scale = trackScale(answer({ at_h: 8, early_h: 6, late_h: 10 }), startsAt, 300)!
    expect(scale.ticks.map((tick) => tick.word)).toContain('Sat')
    expect(scale.ticks.every((tick) => Math.abs(tick.at_h - Math.round(tick.at_h)) < 1e-9)).toBe(true)
  })

  it('is not drawn for a lone moment', () => {
    expect(trackScale(answer({ at_h: 8 }), startsAt, 300)).toBeUndefined()
  })
})
