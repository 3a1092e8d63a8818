import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { findRule, ruleIds, ruleSchema } from '../../../src/core/outcomes/rules.ts'

const folder = new URL('../../../shared/rules/', import.meta.url)
const onDisk = readdirSync(folder).filter((name) => name.endsWith('.json'))

test('every file of shared/rules is registered under its own id', () => {
  expect([...ruleIds].sort()).toEqual(onDisk.map((name) => name.slice(0, -5)).sort())
  for (const id of ruleIds) expect(findRule(id)?.id).toBe(id)
})

test.each(onDisk)('%s falls from step to step and names its source', (name) => {
  const rule = ruleSchema.parse(JSON.parse(readFileSync(new URL(name, folder), 'utf8')))
  const temperatures = [rule.start_C!, ...rule.steps.map((step) => step.to_C!)]
  for (const [index, T_C] of temperatures.slice(1).entries()) expect(T_C).toBeLessThan(temperatures[index]!)
  expect(rule.source.length).toBeGreaterThan(20)
})

test('the Food Code as printed: 135 to 70 °F within 2 h, to 41 °F within 6 h in all (3-501.14(A))', () => {
  const rule = findRule('fda-food-code-2022')!
  const toF = (T_C: number) => Math.round((T_C * 9) / 5 + 32)
  expect([rule.start_C, ...rule.steps.map((step) => step.to_C)].map(toF)).toEqual([135, 70, 41])
  expect(rule.steps.map(({ within_h, clock, strict }) => [within_h, clock, strict])).toEqual([
    [2, 'start', false],
    [6, 'start', false],
  ])
})

test('Standard 3.2.2 as printed: 60 to 21 °C within 2 h, and within a further 4 h to 5 °C (clause 7(3))', () => {
  const rule = findRule('fsanz-3.2.2-7')!
  expect(rule.start_C).toBe(60)
  expect(rule.steps.map(({ to_C, within_h, clock }) => [to_C, within_h, clock])).toEqual([
    [21, 2, 'start'],
    [5, 4, 'step'],
  ])
})

test('no rule answers to another name', () => {
  expect(findRule('fda')).toBeUndefined()
  expect(findRule('constructor')).toBeUndefined()
})
