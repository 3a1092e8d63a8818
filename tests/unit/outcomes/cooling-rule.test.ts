import { describe, expect, test } from 'vitest'
import { judgePlace } from '../../../src/core/outcomes/cooling-rule.ts'
import { findRule, type Rule, ruleFromFile, type StagedRule } from '../../../src/core/outcomes/rules.ts'

/* Histories are straight lines; what is expected follows from the words of each rule by hand. */

const staged = (rule: Rule | undefined): StagedRule => {
  if (rule?.kind !== 'staged') throw new Error('no rule of steps')
  return rule
}
const getRule = (id: string): StagedRule => staged(findRule(id))

type Pairs = readonly (readonly number[])[]
const history = (points: Pairs, unit: string) => ({
  t: points.map(([hour]) => hour! * 3600),
  T_C: points.map(([, T]) => (unit === 'F' ? ((T! - 32) * 5) / 9 : T!)),
})

describe('the words of section 3-501.14 and clause 7(3), worked by hand', () => {
  const fda = getRule('fda-food-code-2022')
  const judge = (points: Pairs, rule = fda) => judgePlace(rule, history(points, 'C'))

  test('baked from cold batter: the clock starts at the first fall below 57 °C, coming up is not cooling', () => {
    // 20 → 95 °C in 3 h, then 95 → 57 in 1 h (38 K), 57 → 21 in 1.5 h, 21 → 5 in 3 h.
    const found = judge([
      [0, 20],
      [3, 95],
      [4, 57],
      [5.5, 21],
      [8.5, 5],
    ])
    expect(found.outcome).toBe('pass')
    expect(found.worst).toMatchObject({ basis: 'rule', reheated: false })
    expect(found.worst?.t0_h).toBeCloseTo(4, 6)
    expect(found.margin_h).toBeCloseTo(0.5, 6)
  })

  test('a warming before the end undoes an early pass of 21 °C, and reheating does not begin the hours anew', () => {
    // Below 21 after 1 h; up to 60 at 3 h, below 21 for good at 4 h 39/55 of the way down from 60 to 5 in 1 h.
    const found = judge([
      [0, 57],
      [1, 20],
      [3, 60],
      [4, 5],
    ])
    expect(found.outcome).toBe('fail')
    expect(found.worst?.reheated).toBe(true)
    expect(found.worst?.t0_h).toBeCloseTo(0, 6)
    expect(found.worst?.steps[0]?.elapsed_h).toBeCloseTo(3 + 39 / 55, 5)
    expect(found.worst?.steps[1]?.outcome).toBe('pass')
  })

  test('cut on the table after having been cooled: an outing, judged by other rules', () => {
    const found = judge([
      [0, 57],
      [1, 21],
      [4, 5],
      [5, 4],
      [9, 18],
      [12, 4],
    ])
    expect(found.outcome).toBe('pass')
    expect(found.episodes.map(({ outcome }) => outcome)).toEqual(['pass', 'n/a'])
  })

  test('cooked a second time after having been cooled: judged again', () => {
    const found = judge([
      [0, 57],
      [1, 21],
      [4, 5],
      [5, 4],
      [6, 80],
      [9, 80],
      [12, 22],
      [20, 4],
    ])
    expect(found.episodes.map(({ basis, outcome }) => [basis, outcome])).toEqual([
      ['rule', 'pass'],
      ['rule', 'fail'],
    ])
    // 80 → 22 °C in 3 h: 57 °C after 3·23/58 h. 22 → 4 °C in 8 h: 21 °C after 8/18 h.
    const t0 = 9 + (3 * 23) / 58
    expect(found.worst?.t0_h).toBeCloseTo(t0, 5)
    expect(found.worst?.steps[0]?.elapsed_h).toBeCloseTo(12 + 8 / 18 - t0, 5)
  })

  test('still warm at the end of the record: pending within the hours, failed beyond them, blocked behind', () => {
    expect(
      judge([
        [0, 60],
        [0.5, 57],
        [2, 40],
      ]).worst?.steps,
    ).toMatchObject([
      { outcome: 'pending', atLeast_h: expect.closeTo(1.5, 6), margin_h: expect.closeTo(0.5, 6) },
      { outcome: 'pending', atLeast_h: expect.closeTo(1.5, 6), margin_h: expect.closeTo(4.5, 6) },
    ])
    expect(
      judge([
        [0, 60],
        [0.5, 57],
        [3, 40],
      ]).worst?.steps.map(({ outcome }) => outcome),
    ).toEqual(['fail', 'pending'])
    expect(
      judge(
        [
          [0, 60],
          [1, 40],
        ],
        getRule('fsanz-3.2.2-7'),
      ).worst?.steps.map(({ outcome }) => outcome),
    ).toEqual(['pending', 'blocked'])
    expect(
      judge([
        [0, 85],
        [5, 60],
      ]).outcome,
    ).toBe('not-started')
  })

  test('frozen and cold all the time: not a matter of cooling', () => {
    expect(
      judge([
        [0, -18],
        [5, 4],
        [9, -18],
      ]),
    ).toMatchObject({ outcome: 'n/a', episodes: [] })
  })

  test('2 h and a second is late, 2 h is not', () => {
    const late = 2 + 1 / 3600
    expect(
      judge([
        [0, 57],
        [late, 21],
        [6, 5],
      ]).worst?.steps[0]?.outcome,
    ).toBe('fail')
    expect(
      judge([
        [0, 57],
        [2, 21],
        [6, 5],
      ]).worst?.steps[0]?.outcome,
    ).toBe('pass')
  })
})

describe('limits in Fahrenheit', () => {
  // FSIS Appendix B (1999), uncured: 130 to 80 °F within 1.5 h, 80 to 40 °F within 5 h (meatsci.osu.edu/node/117).
  const file = {
    id: 'in-fahrenheit',
    title: 'Stabilization, as steps',
    authority: 'FSIS',
    kind: 'staged',
    start_F: 130,
    steps: [
      { to_F: 80, within_h: 1.5, clock: 'start' },
      { to_F: 40, within_h: 5, clock: 'step' },
    ],
    for: 'meat',
    measured: 'inside',
    note: 'data of a test',
    source: 'FSIS Appendix B, 1999',
    certainty: 'seen in the source',
  }
  const rule = staged(ruleFromFile(file))

  test('are converted exactly: a course that keeps them to the minute passes', () => {
    const found = judgePlace(
      rule,
      history(
        [
          [0, 160],
          [0.5, 130],
          [2, 80],
          [7, 40],
        ],
        'F',
      ),
    )
    expect(found.outcome).toBe('pass')
    expect(found.worst?.steps.map(({ margin_h }) => margin_h)).toEqual([expect.closeTo(0, 6), expect.closeTo(0, 6)])
    expect(rule.start_C).toBeCloseTo(54 + 4 / 9, 12)
  })

  test('are not mixed with Celsius', () => {
    expect(() => ruleFromFile({ ...file, start_C: 54 })).toThrow('either in Celsius or in Fahrenheit')
  })
})
