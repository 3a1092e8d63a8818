import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { forecast } from '../../src/core/forecast.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { say } from '../../src/core/words/sentences.ts'
import { metric } from '../../src/core/words/show.ts'

const example = (name: string) => {
  const plan = readPlan(readFileSync(new URL(`../../shared/examples/${name}.thickset`, import.meta.url), 'utf8'))
  return forecast({ ...plan, fidelity: 'quick' })
}

describe('a sheet that rests in the oven after it was switched off', () => {
  const made = example('citrus-sponge-sheet')
  const core = made.curves.core!.map((T) => T!)
  const air = made.curves.air!.map((T) => T!)
  const [bake, rest] = made.stages
  const within = made.times_h.map((h, i) => ({ h, i })).filter(({ h }) => h > bake!.to_h && h < rest!.to_h - 1e-9)

  test('its core rises on, and falls while it is still inside', () => {
    const hottest = within.reduce((a, b) => (core[b.i]! > core[a.i]! ? b : a))
    expect(core[hottest.i]!).toBeGreaterThan(86 + 5)
    expect(hottest.h).toBeGreaterThan(bake!.to_h + 0.25)
    expect(hottest.h).toBeLessThan(rest!.to_h - 0.2)
    expect(core[within.at(-1)!.i]!).toBeLessThan(core[hottest.i]! - 0.5)
  })

  test('the oven falls around it from where it was, below the core in the end', () => {
    for (const [at, { i }] of within.entries()) if (at > 0) expect(air[i]!).toBeLessThanOrEqual(air[i - 1]! + 1e-6)
    expect(air[within[1]!.i]!).toBeGreaterThan(120)
    expect(air[within.at(-1)!.i]!).toBeLessThan(core[within.at(-1)!.i]! - 10)
  })
})

describe('cream in stoneware, in ice and in a fridge', () => {
  const made = example('cream-in-stoneware')

  test('the ice that melts took what cream and dish gave', () => {
    const [bath, fridge] = made.appliances
    const melted = bath!.notes.find(({ code }) => code === 'ice-left' || code === 'ice-gone')
    expect(melted!.code).toBe('ice-left')
    // What passed bottom and sides, what the dish gave, and 6 W/K of the tub in a room of 22 °C: heat of melting 333.6 kJ/kg.
    const { faces } = made.surroundings[0]!
    const cream = -faces.filter(({ face }) => face !== 'top').reduce((sum, { heat_J }) => sum + heat_J, 0)
    const room = 6 * (22 - 1) * 3600 * made.stages[0]!.to_h
    const kept = made.surroundings[0]!.heat_J.walls
    expect(Number(melted!.values.melted_kg) / ((cream + kept + room) / 333_600)).toBeCloseTo(1, 2)
    expect(fridge!.title).toMatch(/fridge/i)
    expect(made.model.energyResidual).toBeLessThan(1e-8)
  })

  test('a chilled dish takes heat at first and gives it back', () => {
    expect(made.surroundings[0]!.heat_J.walls).not.toBe(0)
  })
})

describe('78 kg of warm cream in a chest freezer', () => {
  const made = example('cream-trough-into-a-chest')

  test('the answers say how warm it gets and for how long, and that a walk-in freezer copes', () => {
    const [chest, walkIn] = made.appliances
    expect(chest).toMatchObject({ answer: 'is overloaded', followed: 'goods' })
    expect(made.quantities.mass_kg).toBeGreaterThan(77)
    expect(chest!.extreme_C).toBeGreaterThan(-3)
    expect(chest!.beyond_h).toBeGreaterThan(40)
    expect(walkIn!.answer).toBe('copes')
    const words = made.cautions.map((caution) => say(caution, metric)).join(' ')
    expect(words).toMatch(
      /warms the whole of it \(Chest freezer of 230 L\).*above .15.* for \d+ h \(\d+ h to \d+ h\) in all/,
    )
  })
})

test('a half-round frozen to its heart stands out of its mould by its ice, however soft its gel', () => {
  const { carried, stages } = example('vanilla-half-round')
  const out = carried.find(({ occasion }) => occasion === 'unmoulded')
  expect(out!.at_h).toBeCloseTo(stages[2]!.from_h, 9)
  // Pastry cream at -10 °C: two thirds of its water are ice (the row of ice in the reference of setting laws: 0.69).
  expect(out).toMatchObject({ answer: 'carries', why: { code: 'carried-frozen' } })
  expect(out!.notes.map(({ code }) => code)).toContain('carried-frozen-weak')
})
