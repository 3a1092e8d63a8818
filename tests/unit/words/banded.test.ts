import { describe, expect, test } from 'vitest'

import type { Message, MessageValue } from '../../../src/core/messages.ts'
import { bandedWords, bandValues } from '../../../src/core/words/banded.ts'
import { computedTimes } from '../../../src/core/words/computed-times.ts'
import { type SentenceCode, say, sentences } from '../../../src/core/words/sentences.ts'
import { metric, type Show } from '../../../src/core/words/show.ts'
import { spareWords } from '../../../src/core/words/spare.ts'
import { unbandedTimes } from '../../support/unbanded-times.ts'

const codes = Object.keys(sentences) as SentenceCode[]

/** Times that sentences tell as they were given: asked, allowed, read, or said by the plan or by a rule. */
const givenTimes: ReadonlySet<string> = new Set([
  'stopped-by-guard within_h',
  'guard-default within_h',
  'door-without-appliance within_h',
  'clock-forward within_h',
  'clock-forward at_h',
  'clock-back within_h',
  'clock-back at_h',
  'rule-kept within_h',
  'rule-step-late within_h',
  'rule-step-unfinished within_h',
  'rule-running within_h',
  'rule-inside-kept within_h',
  'rule-inside-over within_h',
  'rule-spells within_h',
  'rule-inside-running within_h',
  // of what the likely course meets, the late end
  'rule-open late_h',
  'rule-open within_h',
  'stay-kept until_h',
  // an appointment that is proposed, and the early end itself
  'day-do-watch act_h',
  'day-do-early early_h',
  // when something was found so
  'day-came at_h',
  'day-came by_h',
  'fit-probe-moved at_h',
  'fit-outliers at_h',
])

/** Which values of a sentence are told as times. */
function timesTold(code: SentenceCode): string[] {
  const told: string[] = []
  let asked = ''
  const values = new Proxy<Record<string, MessageValue>>(
    {},
    {
      get: (_, key) => {
        if (/_(early|late)_h$/.test(String(key))) return undefined
        asked = String(key)
        return 7
      },
    },
  )
  const hear = (): string => {
    told.push(asked)
    return 'then'
  }
  // Values are read just before they are told.
  const show: Show = { ...metric, moment: hear, duration: hear }
  say({ code, values } as Message, show)
  return told
}

describe('times in sentences', () => {
  test('each is computed, and told with its band, or is listed as given', () => {
    const strays = codes.flatMap((code) =>
      timesTold(code).flatMap((key) =>
        computedTimes[code]?.includes(key) === true || givenTimes.has(`${code} ${key}`) ? [] : [`${code} ${key}`],
      ),
    )
    expect(strays).toEqual([])
  })

  test.each(Object.entries(computedTimes))('%s prints the band of each of its computed times', (code, keys) => {
    const values: Record<string, MessageValue> = { title: 'x', stage: 'x', what: 'x', within_h: 900, loss_pct: 1 }
    for (const [index, key] of keys.entries()) {
      const at_h = 100 * (index + 1)
      Object.assign(values, { [key]: at_h }, bandValues(key, { early_h: at_h - 11, late_h: at_h + 13 }))
    }
    const words = say({ code: code as SentenceCode, values }, metric)
    for (const [index] of keys.entries()) {
      const at_h = 100 * (index + 1)
      expect(words).toMatch(new RegExp(`${at_h}(\\.0)? h[a-z ]* \\(${at_h - 11}(\\.0)? h[a-z ]* to ${at_h + 13}`))
    }
    expect(unbandedTimes(words, ['900 h'])).toEqual([])
    // The same without its bands is found out.
    const bare = Object.fromEntries(Object.entries(values).filter(([key]) => !/_(early|late)_h$/.test(key)))
    expect(unbandedTimes(say({ code: code as SentenceCode, values: bare }, metric), ['900 h'])).not.toEqual([])
  })

  test('one time where a band reads the same, an open end where the late one never comes', () => {
    expect(bandedWords(metric.duration, 5, { early_h: 4.99, late_h: 5.01 }, 'longer')).toBe('5.0 h')
    expect(bandedWords(metric.duration, 5, { early_h: 4 }, 'longer')).toBe('5.0 h (4.0 h or longer)')
    expect(spareWords(1, { early_h: -2, late_h: 3 }, metric)).toBe('1.0 h to spare (2.0 h too late to 3.0 h to spare)')
    expect(spareWords(-3, { early_h: -5, late_h: -1 }, metric)).toBe('3.0 h too late (1.0 h to 5.0 h)')
    expect(spareWords(3, { late_h: 5 }, metric)).toBe('3.0 h to spare (5.0 h to spare at best)')
  })
})
