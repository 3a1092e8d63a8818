import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { forecast } from '../../src/core/forecast.ts'
import type { Answer, Forecast } from '../../src/core/forecast-types.ts'
import { getLawKind, settingLaws } from '../../src/core/outcomes/kinetics/index.ts'
import { findRule, ruleIds } from '../../src/core/outcomes/rules.ts'
import { targetWords } from '../../src/core/outcomes/target-words.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { say } from '../../src/core/words/sentences.ts'
import { metric } from '../../src/core/words/show.ts'
import { allTargets, withAllAsked } from '../support/all-asked.ts'

/*
 * Each answer of every example tells four things: its reason in a sentence, the rule or law with its source, how far off
 * it is, and what it can't know. Every published rule and every kind of target is asked of every example.
 */

const EXAMPLES = join(import.meta.dirname, '../../shared/examples')

/** A sentence that ends in no loose words: what a code without its values would leave behind. */
function expectSentence(words: string): void {
  expect(words.length).toBeGreaterThan(15)
  expect(words).not.toMatch(/undefined|NaN|Infinity|\[object/)
}

/** Where a figure comes from: somebody's name, a page, or that it is a choice. */
const expectSources = (sources: readonly string[]): void => {
  expect(sources.length).toBeGreaterThan(0)
  for (const source of sources) expect(source.length).toBeGreaterThan(8)
}

const FIGURE = /\d/

/** How far off: hours to spare, the moment with its band, or a figure of the distance in the reason. */
function expectDistance(answer: Answer, why: string): void {
  if (answer.at_h !== undefined) expect(answer.at_h).toBeGreaterThanOrEqual(0)
  // Where no law is known there is no distance, and that is what the reason says.
  else expect(why).toMatch(answer.why.code === 'setting-unknown' ? /nothing is known/ : FIGURE)
}

function expectRules({ safety }: Forecast): void {
  expect(safety.map(({ rule }) => rule)).toEqual(ruleIds)
  for (const verdict of safety) {
    const why = say(verdict.why, metric)
    expectSentence(why)
    expectSources([verdict.source])
    const { title, measured } = findRule(verdict.rule)!
    expect(verdict.title).toBe(title)
    const { margin_h } = verdict.worst
    if (verdict.answer === 'does not meet') expect(margin_h).toBeLessThanOrEqual(0)
    else if (verdict.answer === 'meets' && margin_h !== undefined) expect(margin_h).toBeGreaterThanOrEqual(0)
    if (verdict.answer !== 'does not apply' && margin_h === undefined) expect(why).toMatch(FIGURE)
    const unknown = verdict.notes.find(({ code }) => code === 'rule-unknown')!
    expect(say(unknown, metric)).toContain(measured)
    for (const note of verdict.notes) expectSentence(say(note, metric))
  }
}

function expectTargets({ answers }: Forecast): void {
  expect(answers.map(({ target }) => target)).toEqual(allTargets.map(({ kind }) => kind))
  for (const answer of answers) {
    const why = say(answer.why, metric)
    expectSentence(why)
    expectSources(answer.sources ?? [])
    expectDistance(answer, why)
    const { source, unknown } = targetWords[answer.target as keyof typeof targetWords]
    expect(answer.sources).toContain(source)
    const notes = (answer.notes ?? []).map((note) => say(note, metric))
    expect(notes).toContain(`not known: ${unknown}`)
    // What rests on a law names that law's source, and what the law can't know.
    for (const { code, values } of answer.notes ?? []) {
      if (code !== 'setting-weak') continue
      const law = settingLaws.find(({ title }) => title === values.title)!
      expect(values.weak).toBe(law.weak)
      expect(answer.sources!.some((one) => one.includes(getLawKind(law.id).source))).toBe(true)
    }
    for (const note of notes) expectSentence(note)
  }
}

function expectReports({ growth, killing, carried, coats }: Forecast): void {
  expect(growth).toHaveLength(6)
  for (const { why, notes, source } of [...growth, ...killing, ...carried, ...coats]) {
    expectSentence(say(why, metric))
    expectSources([source])
    expect(notes.length).toBeGreaterThan(0)
    for (const note of notes) expectSentence(say(note, metric))
  }
  for (const { log10, why } of growth) if (log10 !== undefined) expect(say(why, metric)).toMatch(/yardstick|any growth/)
  for (const { answer, why } of killing)
    if (answer === 'reached' || answer === 'not reached') expect(say(why, metric)).toMatch(FIGURE)
  for (const { why } of [...carried, ...coats]) expect(say(why, metric)).toMatch(FIGURE)
}

describe.each(readdirSync(EXAMPLES))('%s', (name) => {
  const plan = { ...withAllAsked(readPlan(readFileSync(join(EXAMPLES, name), 'utf8'))), fidelity: 'quick' } as const

  test('every rule, target and report tells reason, source, distance and what is not known', {
    timeout: 60_000,
  }, () => {
    const made = forecast(plan)
    expectTargets(made)
    expectRules(made)
    expectReports(made)
  })
})
