import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'

import { whatWouldHelp } from '../../src/core/choosing/help.ts'
import { findLimit } from '../../src/core/choosing/limit.ts'
import { oneNumber } from '../../src/core/choosing/one-number.ts'
import { onTheDay } from '../../src/core/fitting/on-the-day.ts'
import { forecast } from '../../src/core/forecast.ts'
import type { Forecast } from '../../src/core/forecast-types.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import type { Plan } from '../../src/core/plan/schema/plan.ts'
import { curveAt } from '../../src/core/sheet/checks.ts'
import { checkEntries } from '../../src/core/sheet/entries.ts'
import { pageOf } from '../../src/core/sheet/page.ts'
import { makeSheet } from '../../src/core/sheet/sheet.ts'
import { say } from '../../src/core/words/sentences.ts'
import { metric, type Show } from '../../src/core/words/show.ts'
import { clockShow } from '../../src/main/cli/clock-show.ts'
import { tellHelp } from '../../src/main/cli/decide.ts'
import { tellForecast } from '../../src/main/cli/tell-forecast.ts'
import { tellLimit } from '../../src/main/cli/thickest.ts'
import { unbandedTimes } from '../support/unbanded-times.ts'

// Every computed time in what goes out of the program carries its band: terminal, sheet, calendar.

const example = (name: string): Plan => ({
  ...readPlan(readFileSync(new URL(`../../shared/examples/${name}.thickset`, import.meta.url), 'utf8')),
  fidelity: 'quick',
})

/** Ends that the plan gives: by hours or by the clock, and so every end before them. */
function givenEnds({ stages }: Forecast): number[] {
  const ends: number[] = [0]
  let given = true
  for (const { to_h, endedBy } of stages) {
    given = endedBy === 'clock' || (given && (endedBy === 'after_h' || endedBy === 'max_h'))
    if (given) ends.push(to_h)
  }
  return ends
}

/** Times that were asked, allowed or planned, in words. */
function givenIn(plan: Plan, made: Forecast, show: Show): string[] {
  const moments = [...givenEnds(made), ...made.answers.flatMap(({ by_h }) => by_h ?? [])]
  const halfway = made.stages.map(({ from_h, to_h }) => (from_h + to_h) / 2)
  const stretches = [
    ...plan.stages.flatMap(({ until }) => [until.after_h ?? [], until.max_h ?? []].flat()),
    ...made.stages.filter(({ endedBy }) => endedBy === 'clock').map(({ from_h, to_h }) => to_h - from_h),
    ...made.safety.flatMap(({ steps }) => steps.map(({ within_h }) => within_h)),
    ...plan.stages.flatMap(({ start = [] }) =>
      start.flatMap((one) => (one.do === 'open-door' ? one.minutes / 60 : [])),
    ),
  ]
  return [
    ...[...moments, ...halfway].flatMap((h) => [show.moment(h), show.moment(h).replace(/^at /, '')]),
    ...stretches.map(show.duration),
    ...[...moments].map(metric.moment),
  ]
}

/** What is quoted from rules and laws: titles, sources and what they cannot know. */
function quotedIn(made: Forecast): string[] {
  const texts = [
    ...made.safety.flatMap(({ title, source, notes }) => [
      title,
      source,
      ...notes.flatMap(({ values }) => Object.values(values).filter((value) => typeof value === 'string')),
    ]),
    ...made.answers.flatMap(({ sources = [], notes = [] }) => [
      ...sources,
      ...notes.flatMap(({ values }) => Object.values(values).filter((value) => typeof value === 'string')),
    ]),
    ...[...made.growth, ...made.killing, ...made.carried, ...made.coats].flatMap(({ source, notes, why }) => [
      source,
      ...[why, ...notes].flatMap(({ values }) => Object.values(values).filter((value) => typeof value === 'string')),
    ]),
    ...made.model.notes.flatMap(({ values }) => Object.values(values).filter((value) => typeof value === 'string')),
  ]
  return texts.sort((a, b) => b.length - a.length)
}

const without = (text: string, quoted: readonly string[]): string =>
  quoted.reduce((rest, quote) => (quote.length > 12 ? rest.replaceAll(quote, ' ') : rest), text)

/** Figures that sentences of the program name by themselves: what is usual, not what was computed. */
const sayings = [
  /powers of ten.*?(?=\n)/g,
  /gets (?:only )?as much as [\d.]+ min/g,
  /while it is dipped[^\n]*/g,
  /\d+ ms/g,
]
const plain = (text: string): string => sayings.reduce((rest, saying) => rest.replace(saying, ' '), text)

describe.each(['citrus-sponge-sheet', 'vanilla-half-round', 'cream-in-stoneware', 'semolina-berry-bar'])(
  '%s',
  (name) => {
    const plan = example(name)
    const made = forecast(plan)
    const show = clockShow(plan)
    const given = givenIn(plan, made, show)
    const quoted = quotedIn(made)

    test('on the terminal', () => {
      const text = plain(without(tellForecast(made, plan), quoted))
      expect(unbandedTimes(text, given)).toEqual([])
    })

    test('on the sheet and in the calendar', () => {
      const sheet = makeSheet(plan, made)
      const page = JSON.stringify(pageOf(sheet, plan, show))
      expect(unbandedTimes(plain(without(page, quoted)), given)).toEqual([])
      for (const { text, at_h } of checkEntries(sheet, show)) {
        expect(unbandedTimes(plain(text), given)).toEqual([])
        const set = given.includes(show.moment(at_h))
        expect(set || /between .* and /.test(text)).toBe(true)
      }
    })
  },
)

describe('deciding and the day itself', () => {
  /** A sheet: one way for the heat to go, so that many plans are computed in a moment. */
  const plan: Plan = {
    format: 'thickset-plan',
    version: 1,
    title: 'Sheet of pudding',
    startsAt: '2027-03-12T16:00',
    fidelity: 'quick',
    rules: ['fda-food-code-2022'],
    piece: {
      shape: { kind: 'sheet', area_m2: 0.2 },
      fill: [{ material: 'milk-pudding', thickness_mm: 70, start_C: 70 }],
    },
    stages: [{ name: 'Fridge', in: 'cabinet-fridge', until: { core_C: 6, max_h: 40 } }],
    targets: [{ kind: 'cooled', core_C: 8, by: '2027-03-13T06:00' }],
    probes: [{ name: 'heart' }],
  }
  const question = { of: 'target', index: 0 } as const
  // Starting four hours earlier buys just that.
  const given = [...givenIn(plan, forecast(plan), metric), '4.0 h']

  test('what would help: of the target, and of the rule', () => {
    for (const asked of [question, { of: 'rule', rule: 'fda-food-code-2022' } as const]) {
      const text = tellHelp(plan, whatWouldHelp(plan, asked))
      expect(text).toMatch(/more \(/)
      expect(unbandedTimes(text, given)).toEqual([])
    }
  })

  test('the furthest value of a number', () => {
    const limit = findLimit(oneNumber(plan, 'fill[0].thickness_mm'), question, { end: 'greatest', from: 30, to: 120 })
    expect(unbandedTimes(tellLimit(plan, 'cooled', limit), given)).toEqual([])
  })

  test('the day', () => {
    const { times_h, curves } = forecast(plan)
    const readings = [1, 3].map((at_h) => ({
      probe: 'heart',
      at_h,
      C: 1 + curveAt(times_h, curves['probe:heart']!, at_h)!,
    }))
    const measured = { ...plan, readings }
    const show = clockShow(plan)
    const day = onTheDay(measured)
    const text = day.answers.map(({ why, todo }) => `${say(why, show)}. ${say(todo, show)}.`).join('\n')
    const told = day.answers.flatMap(({ todo }) => Object.values(todo.values).map((h) => show.moment(Number(h))))
    expect(text).toMatch(/\(.* to .*\)/)
    expect(unbandedTimes(text, told)).toEqual([])
  })

  test('a forecast without its bands is found out', () => {
    const made = forecast(plan)
    const bare = JSON.parse(
      JSON.stringify({ ...made, film: [] }, (key, value) => (/(early|late|low|high)_h$/.test(key) ? undefined : value)),
    )
    expect(unbandedTimes(tellForecast(bare, plan), givenIn(plan, made, clockShow(plan)))).not.toEqual([])
  })
})
