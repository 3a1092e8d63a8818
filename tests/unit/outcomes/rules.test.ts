import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { publishedRules } from '../../../src/core/outcomes/published-rules.ts'
import { findRule, ruleFromFile, ruleIds, ruleSchema, type StagedRule } from '../../../src/core/outcomes/rules.ts'

const folder = new URL('../../../shared/rules/', import.meta.url)
const onDisk = readdirSync(folder).filter((name) => name.endsWith('.json'))
const fileOf = (name: string) => ruleSchema.parse(JSON.parse(readFileSync(new URL(name, folder), 'utf8')))
const stagedRule = (id: string): StagedRule => findRule(id) as StagedRule

test('every file of shared/rules is registered, each under the name of its file', () => {
  const registered = publishedRules.map((file) => ruleFromFile(file).id)
  expect([...registered].sort()).toEqual(onDisk.map((name) => name.slice(0, -5)).sort())
  for (const id of registered) expect(findRule(id)?.id).toBe(id)
})

test('all are offered but the one that rests on nitrite', () => {
  expect(onDisk.map((name) => name.slice(0, -5)).filter((id) => !ruleIds.includes(id))).toEqual(['fsis-b-cured'])
})

test.each(onDisk)('%s falls from limit to limit and names its source', (name) => {
  const rule = ruleFromFile(fileOf(name))
  const pairs =
    rule.kind === 'staged'
      ? rule.steps.map(({ to_C }, i) => [i === 0 ? rule.start_C : rule.steps[i - 1]!.to_C, to_C])
      : rule.kind === 'bands'
        ? rule.bands.map(({ from_C, to_C }) => [from_C, to_C])
        : rule.kind === 'zone'
          ? [[rule.high_C, rule.low_C]]
          : [[rule.hot_C, rule.cold_C]]
  for (const [from_C, to_C] of pairs) expect(to_C).toBeLessThan(from_C!)
  expect(rule.source.length).toBeGreaterThan(20)
  expect(fileOf(name).note.length).toBeGreaterThan(10)
})

test('the Food Code as printed: 135 to 70 °F within 2 h, to 41 °F within 6 h in all (3-501.14(A))', () => {
  const rule = stagedRule('fda-food-code-2022')
  const toF = (T_C: number) => Math.round((T_C * 9) / 5 + 32)
  expect([rule.start_C, ...rule.steps.map((step) => step.to_C)].map(toF)).toEqual([135, 70, 41])
  expect(rule.steps.map(({ within_h, clock, strict }) => [within_h, clock, strict])).toEqual([
    [2, 'start', false],
    [6, 'start', false],
  ])
})

test('Standard 3.2.2 as printed: 60 to 21 °C within 2 h, and within a further 4 h to 5 °C (clause 7(3))', () => {
  const rule = stagedRule('fsanz-3.2.2-7')
  expect(rule.start_C).toBe(60)
  expect(rule.steps.map(({ to_C, within_h, clock }) => [to_C, within_h, clock])).toEqual([
    [21, 2, 'start'],
    [5, 4, 'step'],
  ])
})

test('limits in Fahrenheit are exact: 130, 80 and 40 °F are 490/9, 80/3 and 40/9 °C', () => {
  const rule = findRule('fsis-b-option1')
  if (rule?.kind !== 'bands') throw new Error('no bands')
  expect(rule.bands.flatMap(({ from_C, to_C }) => [from_C, to_C])).toEqual([
    expect.closeTo(490 / 9, 12),
    expect.closeTo(80 / 3, 12),
    expect.closeTo(80 / 3, 12),
    expect.closeTo(40 / 9, 12),
  ])
})

test('a zone says its hours once: as a limit or as classes', () => {
  const { classes: _, ...zone } = fileOf('fsanz-2h4h.json') as Extract<ReturnType<typeof fileOf>, { kind: 'zone' }>
  expect(() => ruleFromFile(zone)).toThrow('either within_h or classes')
})

test('no rule answers to another name', () => {
  expect(findRule('fda')).toBeUndefined()
  expect(findRule('constructor')).toBeUndefined()
})
