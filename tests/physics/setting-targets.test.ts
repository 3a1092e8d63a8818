import { describe, expect, test } from 'vitest'
import { forecast } from '../../src/core/forecast.ts'
import { roundBody } from '../../src/core/geometry/shapes/round.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import { findCore } from '../../src/core/journey/core-place.ts'
import type { Course } from '../../src/core/journey/course.ts'
import type { Stage } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import { getMaterial } from '../../src/core/materials/index.ts'
import type { Material } from '../../src/core/materials/material.ts'
import type { SetsBy } from '../../src/core/materials/sets-by.ts'
import { dewPoint } from '../../src/core/outcomes/contact.ts'
import { fineFollow } from '../../src/core/outcomes/fine-history.ts'
import { settingLaw } from '../../src/core/outcomes/kinetics/index.ts'
import { follow } from '../../src/core/outcomes/kinetics/spans.ts'
import { judgeRule } from '../../src/core/outcomes/rule-verdict.ts'
import { findRule } from '../../src/core/outcomes/rules.ts'
import type { Target } from '../../src/core/outcomes/target.ts'
import { judgeTarget } from '../../src/core/outcomes/targets/index.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { air, hours, jobOf, stage } from './jobs.ts'

/*
 * Setting laws along whole journeys. What is expected follows from conduction and from the published temperatures of
 * each law: what sets in the cold sets first at the rim and last where it is warmest.
 */

const mass = (sets: readonly SetsBy[], extra: Partial<Material> = {}): Material => ({
  ...fixedMaterial({ id: 'mass', title: 'Mass', k: 0.5, rho: 1050, c: 3500 }),
  sets,
  ...extra,
})
const round = roundBody({ diameter: 0.24 })
const journey = (material: Material, start_C: number, stages: Stage[], thickness = 0.08): Course =>
  runJourney(jobOf(round, material, thickness, start_C, stages), { fidelity: 'quick' })
type PlainTarget = Target extends infer One ? (One extends Target ? Omit<One, 'index'> : never) : never
const judge = (target: PlainTarget, course: Course) => judgeTarget({ ...target, index: 0 } as Target, course)
const fridge = (h: number) => stage(round, air(10, 4), h)
const gelatin: SetsBy = { by: 'gelatin', gelatin_pct: 3, bloom: 200 }

describe('a gelatin cream of 8 cm in the fridge', () => {
  const course = journey(mass([gelatin]), 60, [fridge(36)])
  const core = findCore(course)

  test('the rim is first, the heart last, and the answer is that of the law along the heart', () => {
    const answer = judge({ kind: 'set' }, course)
    expect(answer.answer).toBe('yes')
    expect(course.describe(answer.where).depth).toBeGreaterThan(0.03)
    expect(course.describe(answer.first!.where).depth).toBeLessThan(0.01)
    expect(answer.first!.at_h).toBeLessThan(answer.at_h!)
    // 100 Pa, by the law stepped a hundred times finer along the followed place.
    const law = settingLaw({ by: 'gelatin', gelatin_pct: 3, bloom: 200 }, 'typical')
    const { t, T_C } = fineFollow(course, answer.where)
    const values = Float64Array.from(law.start(60))
    let reached = Number.NaN
    for (let i = 1; i < t.length && Number.isNaN(reached); i++)
      for (let part = 0; part < 100; part++) {
        const at = (share: number) => T_C[i - 1]! + (T_C[i]! - T_C[i - 1]!) * share
        law.advance(values, at(part / 100), at((part + 1) / 100), (t[i]! - t[i - 1]!) / 100)
        if (law.strength!.modulus(values, at(1)) >= 100) {
          reached = t[i - 1]! + ((t[i]! - t[i - 1]!) * (part + 1)) / 100
          break
        }
      }
    // Two minutes: the place is refined between cells when followed.
    expect(Math.abs(answer.at_h! - reached / 3600)).toBeLessThan(0.04)
  })

  test('firm enough to stand comes later than set; sources and weak points are told', () => {
    const set = judge({ kind: 'set' }, course)
    const unmould = judge({ kind: 'unmould' }, course)
    expect(unmould.at_h).toBeGreaterThan(set.at_h! + 1)
    expect(unmould.sources?.[0]).toContain('sammi-gelatin.com')
    expect(unmould.notes?.map(({ code }) => code)).toContain('setting-weak')
  })

  test('asked too early: not yet, with the hours that are missing', () => {
    const { at_h } = judge({ kind: 'set' }, course)
    expect(judge({ kind: 'set', by: hours(at_h! - 1) }, course)).toMatchObject({
      answer: 'not yet',
      margin_h: expect.closeTo(-1, 6),
    })
    const short = journey(mass([gelatin]), 60, [fridge(4)])
    const answer = judge({ kind: 'set' }, short)
    expect(answer).toMatchObject({ answer: 'not yet', why: { code: 'setting-not-yet' } })
    // Left in the same air it takes as long as the whole plan says, within an hour: the air stands for the fridge.
    expect(4 + Number(answer.why.values.more_h)).toBeLessThan(at_h! + 1)
  })

  test('in a warm room it never sets', () => {
    expect(judge({ kind: 'set' }, journey(mass([gelatin]), 60, [stage(round, air(10, 34), 20)]))).toMatchObject({
      answer: 'no',
      why: { code: 'setting-never' },
    })
  })

  test('on a hot day it is lost again, first at the rim, and both moments are told', () => {
    const table = journey(mass([gelatin]), 60, [fridge(36), stage(round, air(10, 33), 8)])
    const stay = judge({ kind: 'stay' }, table)
    expect(stay).toMatchObject({ answer: 'no', why: { code: 'stay-lost' } })
    expect(table.describe(stay.where).depth).toBeLessThan(0.01)
    expect(Number(stay.why.values.at_h)).toBeGreaterThan(36)
    expect(judge({ kind: 'stay', by: hours(36) }, table).answer).toBe('yes')
    const set = judge({ kind: 'set', by: hours(43) }, table)
    expect(set).toMatchObject({ answer: 'no', why: { code: 'setting-done-then-lost' } })
  })

  test('nothing is claimed of the core that the rim alone has', () => {
    const halfway = judge({ kind: 'set', by: hours(3) }, course)
    expect(halfway.answer).toBe('not yet')
    // The heart is then still far above what gelatin needs.
    const { t, T_C } = fineFollow(course, core)
    expect(T_C[Array.from(t).findIndex((one) => one >= hours(3))]).toBeGreaterThan(30)
  })
})

describe('agar', () => {
  const cream = (laid: string) => mass([{ by: 'agar', agar_pct: 0.8, laid }])

  test('only warmed, it never sets, and the answer says what to do', () => {
    expect(judge({ kind: 'set' }, journey(cream('undissolved'), 85, [fridge(36)]))).toMatchObject({
      answer: 'no',
      why: { code: 'setting-never-dissolved' },
    })
  })

  test('boiled before, it sets; at 70 °C it stays, at 97 °C it is lost', () => {
    const stages = (air_C: number) => [fridge(24), stage(round, air(60, air_C), 12)]
    const warm = journey(cream('dissolved'), 85, stages(70))
    expect(judge({ kind: 'set', by: hours(24) }, warm).answer).toBe('yes')
    const law = settingLaw({ by: 'agar', agar_pct: 0.8 }, 'typical')
    const extent = (course: Course) => {
      let last = Number.NaN
      follow(law, fineFollow(course, findCore(course)), (_, T_C, values) => {
        last = law.extent(values, T_C)
      })
      return last
    }
    expect(extent(warm)).toBe(1)
    expect(extent(journey(cream('dissolved'), 85, stages(97)))).toBeLessThan(0.05)
  })
})

describe('frozen', () => {
  const ice = getMaterial('ice-cream-base')
  const body = sheetBody({})
  const run = (stages: Stage[]) => runJourney(jobOf(body, ice, 0.06, 4, stages), { fidelity: 'quick' })
  const freezer = stage(body, air(15, -22), 30)

  test('hard enough to unmould at the last place; too hard to cut until it has warmed to between −8 and −5 °C', () => {
    const course = run([freezer, stage(body, air(15, -6.5), 60)])
    expect(judge({ kind: 'unmould', by: hours(30) }, course).answer).toBe('yes')
    const cut = judge({ kind: 'cut' }, course)
    expect(cut.at_h).toBeGreaterThan(30)
    const { t, T_C } = fineFollow(course, cut.where)
    const i = Array.from(t).findIndex((one) => one >= cut.at_h! * 3600)
    expect(T_C[i]).toBeGreaterThan(-10)
    expect(T_C[i]).toBeLessThan(-4)
  })

  test('cold enough and dry enough to coat: not in damp air, at once in dry', () => {
    const course = run([freezer, stage(body, air(10, 20), 0.5)])
    const inDamp = judge({ kind: 'coat', core_C: -12, humidity_pct: 70, by: hours(30.4) }, course)
    expect(inDamp.answer).not.toBe('yes')
    // In the freezer itself the dew point lies below the surface.
    expect(dewPoint(-22, 70)).toBeLessThan(-25)
    expect(judge({ kind: 'coat', core_C: -12, humidity_pct: 70, by: hours(29) }, course).answer).toBe('yes')
    expect(judge({ kind: 'coat', core_C: -12 }, course).notes?.[0]?.code).toBe('coat-sweat-unknown')
  })
})

describe('the edge of a sponge', () => {
  const body = sheetBody({})
  const bake = (h: number, air_C: number, thickness = 0.04) =>
    runJourney(jobOf(body, getMaterial('sponge-batter'), thickness, 22, [stage(body, air(25, air_C), h)]), {
      fidelity: 'quick',
    })

  test('baked as it should, its crust is welcome; for hours it is dry deep down', () => {
    expect(judge({ kind: 'edge' }, bake(0.5, 175)).answer).toBe('yes')
    expect(judge({ kind: 'edge' }, bake(4, 175))).toMatchObject({ answer: 'no' })
  })

  test('a lower limit of one’s own is kept to', () => {
    const course = bake(0.75, 190)
    const answer = judge({ kind: 'edge', most: 0.0005 }, course)
    expect(answer.answer).toBe('no')
  })
})

test('a custard that is reheated does not begin its hours anew', () => {
  const custard = mass([{ by: 'egg', kind: 'custard' }])
  const once = journey(custard, 85, [stage(round, air(25, 20), 6), fridge(30)])
  const again = journey(custard, 85, [
    stage(round, air(25, 20), 6),
    stage(round, air(60, 95), 5),
    stage(round, air(25, 20), 6),
    fridge(30),
  ])
  const rule = findRule('fda-food-code-2022')!
  const [first, second] = [once, again].map((course) => judgeRule(rule, course, findCore(course)))
  expect(second!.answer).toBe('does not meet')
  expect(second!.notes.map(({ code }) => code)).toContain('rule-reheated')
  // The hours before the reheating count on: more by what it took, 11 h, than without.
  expect(second!.steps[1]!.taken_h! - first!.steps[1]!.taken_h!).toBeGreaterThan(10)
})

test('a plan names the laws of its own material; a rule and a target meet in one forecast', () => {
  const plan = readPlan(
    JSON.stringify({
      format: 'thickset-plan',
      version: 1,
      title: 'Tall cream',
      startsAt: '2027-03-12T16:00',
      fidelity: 'quick',
      rules: ['fda-food-code-2022', 'uk-hold'],
      materials: {
        cream: {
          composition_pct: { water: 75, protein: 4, fat: 6, sugars: 15 },
          sets: [gelatin],
          keeping: { aw: 0.97, pH: 6.5 },
        },
      },
      piece: {
        shape: { kind: 'round', diameter_mm: 240 },
        fill: [
          { material: 'sponge-crumb', thickness_mm: 20, start_C: 20 },
          { material: 'cream', thickness_mm: 60, start_C: 60 },
        ],
      },
      stages: [{ name: 'Fridge', in: { air_C: 4, h_W_m2K: 10 }, until: { after_h: 40 } }],
      targets: [{ kind: 'set', by: '2027-03-14T06:00' }, { kind: 'unmould', material: 'cream' }, { kind: 'edge' }],
    }),
  )
  const { answers, safety, growth } = forecast(plan)
  expect(answers.map(({ answer }) => answer)).toEqual(['yes', 'yes', 'yes'])
  const set = answers[0]!
  expect(set.layer).toBe('fill[1]')
  expect(set.early_h).toBeLessThan(set.at_h!)
  expect(set.late_h).toBeGreaterThan(set.at_h!)
  // The law's own span, 0.6 to 1.6 times, is wider than that of the inputs.
  expect(set.late_h! / set.at_h!).toBeGreaterThan(1.15)
  expect(set.notes?.map(({ code }) => code)).toContain('setting-silent')
  expect(safety).toHaveLength(2)
  expect(growth.find(({ organism }) => organism === 'l-monocytogenes')?.log10).toBeGreaterThan(0)
})
