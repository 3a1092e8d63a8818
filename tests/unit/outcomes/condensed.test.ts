import { expect, test } from 'vitest'
import { condense, cutsOf } from '../../../src/core/outcomes/condensed.ts'
import { judgeFall, onlyFalls } from '../../../src/core/outcomes/falls.ts'
import { judgeRuleAt } from '../../../src/core/outcomes/rule-at-place.ts'
import { findRule, ruleIds } from '../../../src/core/outcomes/rules.ts'

/*
 * A shortened history must be judged as the whole one is. Histories here are anything: up and down, with jumps, with
 * samples that lie on limits to the last digit.
 */

/** Numbers from 0 to 1 that look random and are the same every time (Park and Miller 1988, minimal standard). */
const randomFrom = (seed: number) => {
  let state = seed
  return (): number => {
    state = (state * 48_271) % 2_147_483_647
    return state / 2_147_483_647
  }
}

const wander = (seed: number) => {
  const random = randomFrom(7919 * seed)
  const t = [0]
  const T_C = [random() * 100]
  for (let i = 1; i < 300; i++) {
    const jump = random() < 0.02
    t.push(t[i - 1]! + (jump ? 0 : random() * 900))
    const onLimit = random() < 0.1
    const limit = [57, 21, 5, 60, 70, 10, 63, 4, 8, 0][Math.floor(random() * 10)]!
    T_C.push(onLimit ? limit : Math.min(110, Math.max(-20, T_C[i - 1]! + (random() - 0.51) * (jump ? 120 : 12))))
  }
  return { t, T_C }
}

test.each(ruleIds)('%s judges a shortened history as it does the whole one', (id) => {
  const rule = findRule(id)!
  for (let seed = 1; seed <= 40; seed++) {
    const whole = wander(seed)
    const short = condense(whole, cutsOf(rule))
    expect(short.t.length).toBeLessThan(whole.t.length)
    const [a, b] = [judgeRuleAt(rule, whole), judgeRuleAt(rule, short)]
    expect(b.outcome).toBe(a.outcome)
    expect([b.basis, b.reheated, b.words]).toEqual([a.basis, a.reheated, a.words])
    if (Number.isFinite(a.margin_h)) expect(Math.abs(b.margin_h - a.margin_h)).toBeLessThan(1e-9)
    else expect(b.margin_h).toBe(a.margin_h)
  }
})

/** Falls that stop and go on, with plateaus and samples on limits. */
const fall = (seed: number) => {
  const random = randomFrom(104_729 * seed)
  const t = [0]
  const T_C = [random() * 110]
  const down_K = 0.2 + 12 * random()
  for (let i = 1; i < 60; i++) {
    t.push(t[i - 1]! + random() * 900)
    const next_C = T_C[i - 1]! - (random() < 0.2 ? 0 : random() * down_K)
    const limit = [70, 63, 60, 57, 21, 10, 8, 5, 4, 3].find((one) => one > next_C && one < T_C[i - 1]!)
    T_C.push(limit !== undefined && random() < 0.5 ? limit : next_C)
  }
  return { t, T_C }
}

const byPassages = ruleIds.filter((id) => ['staged', 'hold'].includes(findRule(id)!.kind))

test.each(byPassages)('%s judges a fall by its passages as it does by its episodes', (id) => {
  const rule = findRule(id)!
  const outcomes = new Set<string>()
  for (let seed = 1; seed <= 200; seed++) {
    const history = fall(seed)
    expect(onlyFalls(history)).toBe(true)
    const quick = judgeFall(rule, history)
    const { outcome, margin_h } = judgeRuleAt(rule, history)
    expect(quick).toEqual({ outcome, margin_h })
    outcomes.add(outcome)
  }
  expect(outcomes.size).toBeGreaterThan(1)
})

test('a fall keeps its two ends and both samples of each passage', () => {
  const t = Array.from({ length: 101 }, (_, i) => i)
  const short = condense({ t, T_C: t.map((i) => 100 - i) }, cutsOf(findRule('fda-food-code-2022')!))
  // Limits 70, 57, 21 and 5 °C: each is a sample here, which is kept with those beside it.
  expect(short.T_C).toEqual([100, 71, 70, 69, 58, 57, 56, 22, 21, 20, 6, 5, 4, 0])
})
