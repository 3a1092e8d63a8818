import { describe, expect, test } from 'vitest'
import { blockBody } from '../../src/core/geometry/shapes/block.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import { findCore } from '../../src/core/journey/core-place.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { fineHistory, finePlaces } from '../../src/core/outcomes/fine-history.ts'
import { judgeGrowth } from '../../src/core/outcomes/growth/growth-report.ts'
import { judgeRule } from '../../src/core/outcomes/rule-verdict.ts'
import { findRule } from '../../src/core/outcomes/rules.ts'
import { air, cream, hours, jobOf, stage } from './jobs.ts'

/*
 * What a look at the centre alone misses. Expected places follow from conduction: while the centre is above 52 °C, the
 * highest temperature at which anything grows (Rosso limits of C. perfringens, 51.5 °C), it grows nothing; the face was
 * first to leave 57 °C, so its hours are the longest until it has come down.
 */

const fda = findRule('fda-food-code-2022')!
const block = blockBody({ width: 0.6, length: 0.6 })
const cooled = (h: number, length: number) =>
  runJourney(jobOf(block, cream, 0.3, 85, [stage(block, air(h, 3), length)]), { fidelity: 'quick' })

describe('a block of 30 cm cooled overnight', () => {
  const course = cooled(8, 14)
  const core = findCore(course)

  test('C. perfringens grows most in a shell between face and centre, and not at all in the centre', () => {
    const report = judgeGrowth(course, core).find(({ organism }) => organism === 'c-perfringens')!
    const depth = course.describe(report.where!).depth
    expect(report.log10).toBeGreaterThan(6)
    expect(report.core_log10).toBe(0)
    expect(depth).toBeGreaterThan(0.003)
    expect(depth).toBeLessThan(0.1)
  })

  test('the rule fails at the rim, where its hours began first; of the centre it says only: not yet', () => {
    const verdict = judgeRule(fda, course, core)
    expect(verdict.answer).toBe('does not meet')
    expect(verdict.core.answer).toBe('not yet')
    expect(course.describe(verdict.worst.where).depth).toBeLessThan(0.02)
    expect(verdict.notes.map(({ code }) => code)).toContain('rule-core-differs')
  })

  test('the answer names the shell for growth and the centre for the cooling rule, as the last to come down', () => {
    const verdict = judgeRule(fda, course, core)
    const { where, answer, last_C } = verdict.slowest!
    // Furthest in is last: heat leaves through the faces, so that the hottest place of every later sample lies deepest.
    for (let i = Math.floor(course.t.length / 2); i < course.t.length; i++)
      expect(course.describe(course.hottestAt(i)).depth).toBeGreaterThan(0.12)
    expect(course.describe(where).depth).toBeGreaterThan(0.12)
    for (const share of [where.x, where.y, where.z]) expect(Math.abs(share - 0.5)).toBeLessThan(0.1)
    expect(answer).toBe('not yet')
    expect(verdict.notes[0]).toMatchObject({ code: 'rule-slowest-above', where })
    const shell = judgeGrowth(course, core).find(({ organism }) => organism === 'c-perfringens')!
    expect(course.describe(shell.where!).depth).toBeLessThan(course.describe(where).depth - 0.05)
    const centre_C = course.follow(core)
    expect(last_C).toBeCloseTo(centre_C[centre_C.length - 1]!, 6)
    // The rule's clock starts where a place leaves 57 °C: the centre has not, so its hours can't be the worst ones yet.
    expect(centre_C[centre_C.length - 1]).toBeGreaterThan(57)
    expect(verdict.core.margin_h).toBeUndefined()
    expect(verdict.worst.margin_h).toBeLessThan(0)
  })
})

test('cooled all through in a strong wind: the centre fails too, yet by less than a shell that left 57 °C long before', () => {
  const course = cooled(60, 72)
  const core = findCore(course)
  const verdict = judgeRule(fda, course, core)
  expect(verdict).toMatchObject({ answer: 'does not meet', core: { answer: 'does not meet' } })
  const depth = course.describe(verdict.worst.where).depth
  expect(depth).toBeGreaterThan(0.02)
  expect(depth).toBeLessThan(0.1)
  // Both are over, each by its own hours; the centre's moment is told, and it is the last of all.
  expect(verdict.core.margin_h).toBeLessThan(0)
  expect(verdict.worst.margin_h).toBeLessThan(verdict.core.margin_h!)
  const down = verdict.notes.find(({ code }) => code === 'rule-slowest-down')!
  expect(down.where).toBe(verdict.slowest!.where)
  expect(course.describe(down.where!).depth).toBeGreaterThan(0.12)
  const hottest = fineHistory({ t: course.t, T_C: course.hottest_C })
  const i = Array.from(hottest.T_C).findLastIndex((T_C) => T_C > 5)
  expect(Number(down.values.at_h) * 3600).toBeGreaterThan(hottest.t[i]! - 120)
  // What hands bring grows where they were: at the faces.
  const brought = judgeGrowth(course, core).find(({ organism }) => organism === 's-aureus')!
  expect(course.describe(brought.where!).depth).toBeLessThan(0.02)
})

test('straight lines along a history stay within 0.02 K of a much finer journey', () => {
  const body = sheetBody({})
  const job = jobOf(body, cream, 0.06, 85, [stage(body, air(25, 2), 6)])
  const course = runJourney(job, { fidelity: 'fine' })
  // exp-like course of the middle: its own cubic, ten times as finely cut.
  const middle = course.follow({ x: 0.5, y: 0.5, z: 0.5 })
  const coarse = fineHistory({ t: course.t, T_C: middle })
  const fine = fineHistory({ t: course.t, T_C: middle }, 2e-4)
  let worst = 0
  for (let i = 0, j = 1; i < fine.t.length; i++) {
    while (j < coarse.t.length - 1 && coarse.t[j]! < fine.t[i]!) j++
    const share = (fine.t[i]! - coarse.t[j - 1]!) / (coarse.t[j]! - coarse.t[j - 1]!)
    worst = Math.max(worst, Math.abs(fine.T_C[i]! - coarse.T_C[j - 1]! - share * (coarse.T_C[j]! - coarse.T_C[j - 1]!)))
  }
  expect(worst).toBeLessThan(0.02)
  expect(coarse.t.length).toBeLessThan(fine.t.length / 4)
  expect(finePlaces(course)).toHaveLength(course.places().length)
  expect(coarse.t[coarse.t.length - 1]).toBe(hours(6))
})
