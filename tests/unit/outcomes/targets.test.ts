import { describe, expect, test } from 'vitest'
import { judgeTarget } from '../../../src/core/outcomes/targets/index.ts'
import { handCourse } from './hand-course.ts'

const hours = (h: number): number => h * 3600

describe('cooled and frozen', () => {
  // Heart 80 → 4 °C in straight parts; rim ahead of it. Heart passes 30 °C at 4 h, 10 °C at 4 + 4·20/26 h.
  const chilled = handCourse({
    hours: [0, 2, 4, 8],
    air_C: 3,
    places: [
      { y: 0.02, T_C: [80, 20, 8, 3.5] },
      { y: 0.46, T_C: [80, 70, 30, 4] },
      { y: 0.98, T_C: [80, 40, 12, 3.8] },
    ],
  })

  test('reached: moment by interpolation, place of the slowest, margin against the asked time', () => {
    const answer = judgeTarget({ kind: 'cooled', core_C: 10, index: 1, by: hours(8) }, chilled)
    expect(answer).toMatchObject({
      target: 'cooled',
      index: 1,
      answer: 'yes',
      by_h: 8,
      where: { y: 0.46 },
      layer: 'fill[0]',
    })
    expect(answer.at_h).toBeCloseTo(4 + (4 * 20) / 26, 9)
    expect(answer.margin_h).toBeCloseTo(4 - (4 * 20) / 26, 9)
    expect(answer.why).toMatchObject({ code: 'fallen', where: { y: 0.46 } })
  })

  test('later than asked: not yet, with a negative margin', () => {
    const answer = judgeTarget({ kind: 'cooled', core_C: 10, index: 0, by: hours(5) }, chilled)
    expect(answer.answer).toBe('not yet')
    expect(answer.margin_h).toBeCloseTo(1 - (4 * 20) / 26, 9)
  })

  test('nothing asked: yes within the plan, without a margin', () => {
    const answer = judgeTarget({ kind: 'frozen', core_C: 30, index: 0 }, chilled)
    expect(answer).toMatchObject({ target: 'frozen', answer: 'yes', at_h: 4 })
    expect(answer).not.toHaveProperty('margin_h')
    expect(answer).not.toHaveProperty('by_h')
  })

  test('exactly at the asked temperature at the end counts, a millikelvin above does not', () => {
    expect(judgeTarget({ kind: 'cooled', core_C: 4, index: 0 }, chilled)).toMatchObject({ answer: 'yes', at_h: 8 })
    expect(judgeTarget({ kind: 'cooled', core_C: 3.999, index: 0 }, chilled).answer).toBe('not yet')
  })

  test('still coming down at the end: not yet, with the rate of the last hour', () => {
    // 26 K in 4 h.
    const { answer, why, ...rest } = judgeTarget({ kind: 'cooled', core_C: 3.5, index: 0 }, chilled)
    expect(answer).toBe('not yet')
    expect(rest).not.toHaveProperty('at_h')
    expect(why.code).toBe('still-above')
    expect(why.values.rate_K_h).toBeCloseTo(6.5, 9)
  })

  test('air as warm as what is asked: no', () => {
    const answer = judgeTarget({ kind: 'cooled', core_C: 2, index: 0 }, chilled)
    expect(answer).toMatchObject({ answer: 'no', why: { code: 'air-too-warm', values: { air_C: 3, last_C: 4 } } })
  })

  test('a heart that has not begun to follow is not at rest', () => {
    const course = handCourse({
      hours: [0, 2, 4],
      air_C: -20,
      places: [
        { y: 0.02, T_C: [60, 10, -2] },
        { y: 0.5, T_C: [60, 60, 60] },
      ],
    })
    expect(judgeTarget({ kind: 'frozen', core_C: -12, index: 0 }, course)).toMatchObject({
      answer: 'not yet',
      why: { code: 'still-above' },
    })
  })

  test('at rest between a cold and a warm side: no, and where it stands', () => {
    const course = handCourse({
      hours: [0, 5, 40, 48],
      air_C: -5,
      places: [
        { y: 0.02, T_C: [20, 0, -4, -4] },
        { y: 0.98, T_C: [20, 14, 6, 6] },
      ],
    })
    const answer = judgeTarget({ kind: 'cooled', core_C: 5, index: 0 }, course)
    expect(answer).toMatchObject({
      answer: 'no',
      where: { y: 0.98 },
      why: { code: 'settled-above', values: { last_C: 6 } },
    })
  })

  test('reached, then taken out: yes, and from when it is warmer again', () => {
    const course = handCourse({
      hours: [0, 10, 20, 25],
      air_C: [-20, -20, 20, 20],
      stages: [
        ['freeze', 0, 20],
        ['serve', 20, 25],
      ],
      places: [{ y: 0.5, T_C: [20, -10, -14, 6] }],
    })
    const answer = judgeTarget({ kind: 'frozen', core_C: -12, index: 0, by: hours(22) }, course)
    expect(answer).toMatchObject({ answer: 'yes', at_h: 15, why: { code: 'fallen-then-warmer' } })
    // −14 → 6 °C in 5 h: −12 after half an hour.
    expect(answer.why.values.again_h).toBeCloseTo(20.5, 9)
  })

  test('cold batter that is baked first: cooled means the fall after the oven, not the cold start', () => {
    const course = handCourse({
      hours: [0, 2, 6, 10],
      air_C: [180, 180, 20, 20],
      stages: [
        ['bake', 0, 2],
        ['rest', 2, 10],
      ],
      places: [{ y: 0.5, T_C: [20, 95, 55, 25] }],
    })
    // 55 → 25 in 4 h: 30 after 25/30 of it.
    expect(judgeTarget({ kind: 'cooled', core_C: 30, index: 0 }, course).at_h).toBeCloseTo(6 + (4 * 25) / 30, 9)
  })

  test('of two falls the one in time counts, where both are in time the later', () => {
    const course = handCourse({
      hours: [0, 1, 2, 3, 4],
      air_C: 0,
      places: [{ y: 0.5, T_C: [20, 0, 20, 0, 0] }],
    })
    const at = (by?: number) =>
      judgeTarget({ kind: 'cooled', core_C: 10, index: 0, ...(by === undefined ? {} : { by: hours(by) }) }, course).at_h
    expect(at(1)).toBeCloseTo(0.5, 9)
    expect(at(4)).toBeCloseTo(2.5, 9)
    expect(at()).toBeCloseTo(2.5, 9)
    expect(at(0.25)).toBeCloseTo(0.5, 9)
  })

  test('never warmer than asked: yes from the start', () => {
    const course = handCourse({ hours: [0, 5], air_C: 3, places: [{ y: 0.5, T_C: [4, 3] }] })
    expect(judgeTarget({ kind: 'cooled', core_C: 5, index: 0, by: hours(1) }, course)).toMatchObject({
      answer: 'yes',
      at_h: 0,
      margin_h: 1,
      why: { code: 'fallen-from-the-start' },
    })
  })

  test('getting warmer at the end without having been there: no', () => {
    const course = handCourse({
      hours: [0, 4, 8],
      air_C: [-20, -20, -1],
      stages: [
        ['freezer', 0, 4],
        ['door open', 4, 8],
      ],
      places: [{ y: 0.5, T_C: [20, -8, -4] }],
    })
    expect(judgeTarget({ kind: 'frozen', core_C: 0 - 0.5, index: 0 }, course).answer).toBe('yes')
    const answer = judgeTarget({ kind: 'frozen', core_C: -0.9 - 8, index: 0 }, course)
    expect(answer).toMatchObject({ answer: 'no', why: { code: 'air-too-warm' } })
  })
})

describe('baked', () => {
  // The crust is hot early and cools in the rest; the heart goes on rising after the oven: 93 °C at 3 + 2·3/8 h.
  const sponge = handCourse({
    hours: [0, 3, 5, 7],
    air_C: [180, 180, 60, 40],
    stages: [
      ['bake', 0, 3],
      ['rest', 3, 7],
    ],
    places: [
      { y: 0.02, T_C: [20, 130, 70, 50] },
      { y: 0.5, T_C: [20, 90, 98, 80] },
    ],
  })

  test('each place at its own time, the last one in the rest after the oven', () => {
    const answer = judgeTarget({ kind: 'baked', core_C: 93, index: 0, by: hours(7) }, sponge)
    expect(answer).toMatchObject({
      answer: 'yes',
      where: { y: 0.5 },
      why: { code: 'baked-through', values: { highest_C: 98 } },
    })
    expect(answer.at_h).toBeCloseTo(3.75, 5)
    expect(answer.margin_h).toBeCloseTo(3.25, 5)
  })

  test('beyond its window by what the heart still rises: no, with the moment it was right', () => {
    const answer = judgeTarget({ kind: 'baked', core_C: 93, most_C: 97, index: 0 }, sponge)
    expect(answer).toMatchObject({ answer: 'no', why: { code: 'baked-beyond', values: { most_C: 97, highest_C: 98 } } })
    expect(answer.at_h).toBeCloseTo(3.75, 5)
    expect(judgeTarget({ kind: 'baked', core_C: 93, most_C: 98, index: 0 }, sponge).answer).toBe('yes')
  })

  test('cooled before it was through: no', () => {
    const answer = judgeTarget({ kind: 'baked', core_C: 99, index: 0 }, sponge)
    expect(answer).toMatchObject({
      answer: 'no',
      where: { y: 0.5 },
      why: { code: 'not-baked', values: { highest_C: 98 } },
    })
    expect(answer).not.toHaveProperty('at_h')
  })

  test('still rising at the end: not yet', () => {
    const course = handCourse({
      hours: [0, 1, 2],
      air_C: 180,
      places: [
        { y: 0.02, T_C: [20, 90, 110] },
        { y: 0.5, T_C: [20, 30, 55] },
      ],
    })
    const answer = judgeTarget({ kind: 'baked', core_C: 93, index: 0 }, course)
    expect(answer).toMatchObject({ answer: 'not yet', where: { y: 0.5 }, why: { code: 'still-below' } })
    expect(answer.why.values.rate_K_h).toBeCloseTo(25, 9)
  })

  test('air below what is asked: no', () => {
    const course = handCourse({ hours: [0, 5], air_C: 85, places: [{ y: 0.5, T_C: [20, 80] }] })
    expect(judgeTarget({ kind: 'baked', core_C: 93, index: 0 }, course)).toMatchObject({
      answer: 'no',
      why: { code: 'air-too-cool' },
    })
  })

  test('what is poured on the baked base later need not be baked', () => {
    const course = handCourse({
      hours: [0, 3, 5, 5, 9],
      air_C: [180, 180, 20, 20, 4],
      places: [
        { y: 0.2, T_C: [20, 96, 40, 40, 10] },
        { y: 0.8, layer: 'stages[1].start[0]', T_C: [60, 12] },
      ],
    })
    expect(judgeTarget({ kind: 'baked', core_C: 93, index: 0 }, course)).toMatchObject({
      answer: 'yes',
      where: { y: 0.2 },
    })
  })
})
