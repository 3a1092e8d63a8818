import { describe, expect, test } from 'vitest'
import type { History } from '../../../src/core/outcomes/cooling-rule.ts'
import { judgeBands, judgeHold, judgeZone } from '../../../src/core/outcomes/inside-rules.ts'
import { type BandRule, findRule, type HoldRule, type ZoneRule } from '../../../src/core/outcomes/rules.ts'

/* Histories are straight lines; what is expected follows from the words of each rule by hand, beside each check. */

const history = (...points: readonly (readonly [hour: number, T_C: number])[]): History => ({
  t: points.map(([hour]) => hour * 3600),
  T_C: points.map(([, T_C]) => T_C),
})
const zone = (id: string) => findRule(id) as ZoneRule
const bands = (id: string) => findRule(id) as BandRule
const hold = (id: string) => findRule(id) as HoldRule
const F = (T_F: number) => ((T_F - 32) * 5) / 9

describe('time in bands (FSIS option 1: 130 to 80 °F 1.5 h, 80 to 40 °F 5 h)', () => {
  const rule = bands('fsis-b-option1')

  test('exactly on both limits is kept', () => {
    const found = judgeBands(rule, history([0, F(160)], [0.5, F(130)], [2, F(80)], [7, F(40)]))
    expect(found.outcome).toBe('pass')
    expect(found.parts.map(({ inside_h }) => inside_h)).toEqual([expect.closeTo(1.5, 6), expect.closeTo(5, 6)])
  })

  test('a warming counts again: two falls of 50 minutes through the upper band are 100 minutes and the way up', () => {
    // 130 to 80 °F in 50 min, up in 20 min, down in 50 min: 2 h.
    const found = judgeBands(
      rule,
      history([0, F(140)], [0.2, F(130)], [0.2 + 5 / 6, F(80)], [0.2 + 7 / 6, F(130)], [2.2, F(80)], [3, F(40)]),
    )
    expect(found.parts[0]).toMatchObject({ outcome: 'fail', inside_h: expect.closeTo(2, 6) })
    expect(found.outcome).toBe('fail')
  })

  test('coming up to 70 °C is not counted, nor is what never was warmer than 40 °F judged', () => {
    expect(
      judgeBands(rule, history([0, 20], [6, 75], [7, F(130)], [8, F(80)], [10, 4])).parts[0]?.inside_h,
    ).toBeCloseTo(1, 6)
    expect(judgeBands(rule, history([0, 3], [9, 4])).outcome).toBe('n/a')
  })

  test('hot at the end: not begun; inside at the end: still running', () => {
    expect(judgeBands(rule, history([0, 90], [9, 70])).outcome).toBe('not-started')
    const found = judgeBands(rule, history([0, F(130)], [1, F(90)]))
    expect(found.outcome).toBe('pending')
    expect(found.parts.map(({ outcome }) => outcome)).toEqual(['pending', 'not-started'])
  })
})

describe('time in a zone', () => {
  const twoFour = zone('fsanz-2h4h')

  test('counts from the end of the cooling, all spells added up', () => {
    // Cooled to 5 °C at 6 h; out from 10 to 12 h and from 20 to 21 h: 3 h.
    const out = history([0, 80], [6, 5], [10, 5], [10, 20], [12, 20], [12, 4], [20, 4], [20, 20], [21, 20], [21, 4])
    expect(judgeZone(twoFour, out)).toMatchObject({ outcome: 'pass', words: 'use it now' })
    expect(judgeZone(twoFour, out).parts[0]?.inside_h).toBeCloseTo(3, 5)
  })

  test.each([
    [1.99, 'pass', 'use it or put it back in the cold'],
    [2, 'pass', 'use it now'],
    [4, 'fail', 'throw it away'],
  ])('%s h: just two hours are "use it now", just four "throw it away"', (hours, outcome, words) => {
    const out = history([0, 4], [1, 4], [1, 20], [1 + hours, 20], [1 + hours, 4], [30, 4])
    expect(judgeZone(twoFour, out)).toMatchObject({ outcome, words })
  })

  test('not cooled through: not begun; still outside at the end: not over', () => {
    expect(judgeZone(twoFour, history([0, 80], [6, 20])).outcome).toBe('not-started')
    expect(judgeZone(twoFour, history([0, 4], [1, 4], [2, 18])).outcome).toBe('pending')
  })

  test('time alone (3-501.19): 4 h, 6 h where nothing gets warmer than 21 °C', () => {
    const rule = zone('fda-food-code-2022-time')
    const out = (peak: number) => history([0, 5], [2.5, peak], [5, 5])
    expect(judgeZone(rule, out(21))).toMatchObject({ outcome: 'pass', parts: [{ within_h: 6 }] })
    expect(judgeZone(rule, out(21.5))).toMatchObject({ outcome: 'fail', parts: [{ within_h: 4 }] })
  })

  test('40 to 140 °F: 2 h in all after cooking, 1 h where the air is above 90 °F meanwhile', () => {
    const rule = zone('usda-danger-zone')
    // Up through the zone in 3 h, down in 1.5 h (80 to 0 °C: 60 to 4.44 in 55.56/80 of 2.16 h).
    const baked = history([0, 20], [3, 80], [5.16, 0])
    expect(judgeZone(rule, baked).parts[0]?.inside_h).toBeCloseTo((2.16 * (60 - 40 / 9)) / 80, 5)
    expect(judgeZone(rule, baked).outcome).toBe('pass')
    expect(judgeZone(rule, baked, { air: [180, 20, 20] }).outcome).toBe('pass')
    // While it is inside the zone at 4 h the air is 35 °C.
    const sampled = history([0, 20], [3, 80], [4, 80 - 80 / 2.16], [5.16, 0])
    expect(judgeZone(rule, sampled, { air: [180, 35, 35, 20] })).toMatchObject({
      outcome: 'fail',
      parts: [{ within_h: 1 }],
    })
  })
})

describe('limits for what is held', () => {
  test('in the fridge all along, or kept hot all along', () => {
    expect(judgeHold(hold('fda-hold'), history([0, 80], [5, 5], [9, 3])).outcome).toBe('pass')
    expect(judgeHold(hold('fda-hold'), history([0, 65], [9, 60])).outcome).toBe('pass')
    expect(judgeHold(hold('fda-hold'), history([0, 80], [9, 30])).outcome).toBe('not-started')
  })

  test('one display spell of less than four hours above 8 °C is excused, a second or a longer one is not (Schedule 4)', () => {
    const rule = hold('uk-hold')
    const spell = (hours: number, times: number) => {
      const points: [number, number][] = [[0, 4]]
      for (let i = 0; i < times; i++)
        points.push([1 + 10 * i, 4], [1 + 10 * i, 15], [1 + 10 * i + hours, 15], [1 + 10 * i + hours, 4])
      return judgeHold(rule, history(...points, [50, 4])).outcome
    }
    expect([spell(3.9, 1), spell(4, 1), spell(1, 2)]).toEqual(['pass', 'fail', 'fail'])
  })
})
