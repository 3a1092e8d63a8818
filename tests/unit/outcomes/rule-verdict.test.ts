import { describe, expect, test } from 'vitest'
import { judgeRule } from '../../../src/core/outcomes/rule-verdict.ts'
import { findRule } from '../../../src/core/outcomes/rules.ts'
import { say } from '../../../src/core/words/sentences.ts'
import { metric } from '../../../src/core/words/show.ts'
import { handCourse } from './hand-course.ts'

const fda = findRule('fda-food-code-2022')!
const fsanz = findRule('fsanz-3.2.2-7')!
const heart = { x: 0.5, y: 0.5, z: 0.5 }

describe('the worst of all places decides', () => {
  // Rim: 57 at 28/60 h, 21 °C at 10 h. Heart: still at 62 °C when the plan ends.
  const thick = handCourse({
    hours: [0, 1, 10, 12],
    air_C: 3,
    places: [
      { y: 0.02, T_C: [85, 25, 21, 20] },
      { y: 0.5, T_C: [85, 84, 66, 62] },
    ],
  })

  test('a rim that is late fails the rule though the heart has not begun', () => {
    const verdict = judgeRule(fda, thick, heart)
    expect(verdict).toMatchObject({ answer: 'does not meet', worst: { where: { y: 0.02 } } })
    expect(verdict.steps).toMatchObject([
      { from_C: 57, to_C: 21, within_h: 2, outcome: 'fail' },
      { from_C: 57, to_C: 5, within_h: 6, outcome: 'fail' },
    ])
    expect(verdict.steps[0]!.taken_h).toBeCloseTo(10 - 28 / 60, 5)
    expect(verdict.steps[1]!.at_least_h).toBeCloseTo(12 - 28 / 60, 5)
    expect(verdict.worst.margin_h).toBeCloseTo(2 - (10 - 28 / 60), 5)
    expect(verdict.why).toMatchObject({ code: 'rule-step-late' })
    expect(verdict.notes.map(({ code }) => code)).toEqual(['rule-slowest-above', 'rule-core-differs', 'rule-unknown'])
    // The heart is last: of the two the only one that is still warm at the end.
    expect(verdict.slowest).toMatchObject({ where: heart, answer: 'not yet', last_C: 62 })
  })

  test('the words name the step, never more than the rule says', () => {
    const verdict = judgeRule(fda, thick, heart)
    expect(say(verdict.why, metric)).toBe('57.0 °C to 21.0 °C takes 9.5 h, 2.0 h are allowed')
    expect(say(verdict.notes[0]!, metric)).toMatch(/^the last place to come down ends at 62\.0 °C, above 5\.0 °C/)
    expect(say(verdict.notes[1]!, metric)).toBe('judged at the core alone, the answer would be: not yet')
  })
})

test('kept everywhere: meets, with the tightest step', () => {
  const course = handCourse({
    hours: [0, 1.5, 5],
    air_C: 0,
    places: [
      { y: 0.02, T_C: [57, 15, 2] },
      { y: 0.5, T_C: [57, 21, 5] },
    ],
  })
  const verdict = judgeRule(fda, course, heart)
  expect(verdict).toMatchObject({ answer: 'meets', worst: { where: { y: 0.5 } }, notes: [{ code: 'rule-unknown' }] })
  expect(verdict.worst.margin_h).toBeCloseTo(0.5, 5)
  expect(verdict.why).toMatchObject({ code: 'rule-kept', values: { to_C: 21 } })
  expect(verdict.why.values.taken_h).toBeCloseTo(1.5, 5)
})

test('hot all the time: not yet, the hours have not begun', () => {
  const course = handCourse({ hours: [0, 5], air_C: 3, places: [{ y: 0.5, T_C: [85, 70] }] })
  expect(judgeRule(fda, course, heart)).toMatchObject({
    answer: 'not yet',
    why: { code: 'rule-clock-waits' },
    steps: [{ outcome: 'not-started' }, { outcome: 'not-started' }],
  })
})

test('cold all the time: does not apply', () => {
  const course = handCourse({ hours: [0, 5], air_C: 3, places: [{ y: 0.5, T_C: [4, 3] }] })
  expect(judgeRule(fda, course, heart)).toMatchObject({ answer: 'does not apply', why: { code: 'rule-not-for-this' } })
})

test('two readings of the Australian clause that differ are both told', () => {
  // 60 → 21 °C in 1 h, → 5 °C 4.5 h later: strict reading half an hour too long, 5.5 h in all kept.
  const course = handCourse({ hours: [0, 1, 5.5], air_C: 0, places: [{ y: 0.5, T_C: [60, 21, 5] }] })
  const verdict = judgeRule(fsanz, course, heart)
  expect(verdict.answer).toBe('does not meet')
  expect(verdict.steps[1]).toMatchObject({ from_C: 21, to_C: 5, within_h: 4, outcome: 'fail' })
  expect(verdict.notes.slice(0, -1)).toMatchObject([{ code: 'rule-other-reading', values: { answer: 'meets' } }])
})

test('a cold base warmed by a hot pour is judged by analogy, and said to be', () => {
  const course = handCourse({
    hours: [0, 1, 3, 8],
    air_C: 3,
    places: [
      { y: 0.2, layer: 'fill[0]', T_C: [4, 46, 24, 5] },
      { y: 0.8, layer: 'fill[1]', T_C: [57, 22, 10, 4] },
    ],
  })
  const verdict = judgeRule(fda, course, { x: 0.5, y: 0.8, z: 0.5 })
  // 4 → 46 °C in 1 h: 5 °C after 1/42 h; 24 → 5 in 5 h: 21 °C after 3 + 5·3/19 h.
  expect(verdict.steps[0]!.taken_h).toBeCloseTo(3 + 15 / 19 - 1 / 42, 4)
  expect(verdict).toMatchObject({ answer: 'does not meet', worst: { layer: 'fill[0]' } })
  expect(verdict.notes.map(({ code }) => code)).toContain('rule-by-analogy')
})
