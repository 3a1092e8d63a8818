import { describe, expect, test } from 'vitest'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import { findCore } from '../../src/core/journey/core-place.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import type { SetsBy } from '../../src/core/materials/sets-by.ts'
import { fineFollow } from '../../src/core/outcomes/fine-history.ts'
import { settingLaw } from '../../src/core/outcomes/kinetics/index.ts'
import { follow } from '../../src/core/outcomes/kinetics/spans.ts'
import { judgeTarget } from '../../src/core/outcomes/targets/index.ts'
import { air, jobOf, stage } from './jobs.ts'

const body = sheetBody({})
const crumb = (sets?: readonly SetsBy[]) => ({
  ...fixedMaterial({ id: 'crumb', title: 'Crumb', k: 0.45, rho: 1000, c: 3460 }),
  ...(sets === undefined ? {} : { sets }),
})
const bake = (oven_h: number, rest_h: number, sets?: readonly SetsBy[], oven_C = 100, thickness = 0.1) => {
  const stages = [stage(body, air(400, oven_C), oven_h), ...(rest_h > 0 ? [stage(body, air(10, 22), rest_h)] : [])]
  return runJourney(jobOf(body, crumb(sets), thickness, 20, stages), { fidelity: 'quick' })
}
const baked = (course: ReturnType<typeof bake>, core_C: number) =>
  judgeTarget({ kind: 'baked', index: 0, core_C }, course)

describe('starch of a lean batter, 98 % at 81 °C when heated by 1 K a minute (Zanoni et al. 1995, from memory)', () => {
  const sets: SetsBy[] = [{ by: 'dough-starch' }]

  test('a window that is too low is no proof: the answer waits for the starch, says so and names the law', () => {
    const course = bake(6, 0, sets)
    const low = baked(course, 60)
    const plain = baked(bake(6, 0), 60)
    expect(low.at_h!).toBeGreaterThan(plain.at_h! + 0.2)
    expect(low.notes?.map(({ code }) => code)).toContain('baked-laws-later')
    expect(low.sources?.join()).toContain('Zanoni')
    // At that moment the law itself has come to 98 % at the place that is last.
    const law = settingLaw({ by: 'dough-starch' }, 'typical')
    let extent = 0
    follow(law, fineFollow(course, low.where), (t, T_C, values) => {
      if (t <= low.at_h! * 3600) extent = law.extent(values, T_C)
    })
    expect(extent).toBeGreaterThan(0.95)
    expect(extent).toBeLessThan(0.985)
  })

  test('where the window asks for more than the starch does, the window decides', () => {
    const course = bake(6, 0, sets)
    expect(baked(course, 97).at_h).toBe(baked(bake(6, 0), 97).at_h)
  })

  test('taken out too soon the starch never sets, whatever the window says', () => {
    const found = baked(bake(1.45, 3, sets), 40)
    expect(found.answer).toBe('no')
    expect(found.at_h).toBeUndefined()
  })
})

describe('what is carried over after the heat', () => {
  test('a slab of 10 cm with faces at 100 °C and its core near 65 °C rises by less than a third of the difference, an hour or so later', () => {
    const course = bake(2.4, 6)
    const out = fineFollow(course, findCore(course))
    const i = Array.from(out.t).findLastIndex((t) => t <= 2.4 * 3600)
    const core_C = out.T_C[i]!
    expect(core_C).toBeGreaterThan(55)
    expect(core_C).toBeLessThan(75)
    const note = baked(course, 50).notes!.find(({ code }) => code === 'baked-carried-over')!
    const rise = Number(note.values.rise_K)
    // A parabola that loses nothing comes to rest a third of its height above its core.
    expect(rise).toBeLessThan((100 - core_C) / 3)
    // In still air a fifth of the difference remains, give or take a third: 7.5 K at 65 °C.
    expect(rise / (100 - core_C)).toBeGreaterThan(0.13)
    expect(rise / (100 - core_C)).toBeLessThan(0.27)
    // 49 minutes after 65 °C, by the same estimate.
    expect(Number(note.values.at_h) - 2.4).toBeGreaterThan(0.5)
    expect(Number(note.values.at_h) - 2.4).toBeLessThan(1.2)
  })

  test('a plan that ends in the oven says that the core still rises', () => {
    expect(baked(bake(1.5, 0), 40).notes!.map(({ code }) => code)).toContain('baked-still-rising')
    expect(baked(bake(1.5, 24), 40).notes!.map(({ code }) => code)).not.toContain('baked-still-rising')
  })
})
