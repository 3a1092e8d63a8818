import { describe, expect, test } from 'vitest'
import { forecast } from '../../src/core/forecast.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { say } from '../../src/core/words/sentences.ts'
import { metric } from '../../src/core/words/show.ts'

/** A half-round bar of 78 kg, poured at 70 °C, put straight into a household's chest freezer. */
const plan = readPlan(
  JSON.stringify({
    ...{ format: 'thickset-plan', version: 1, title: 'Half-round', startsAt: '2027-03-12T16:00', fidelity: 'quick' },
    piece: {
      shape: { kind: 'trough', radius_mm: 235, length_mm: 820 },
      fill: [{ material: 'pastry-cream', start_C: 70 }],
      mould: [{ faces: ['curved'], material: 'polypropylene', thickness_mm: 5 }],
    },
    stages: [{ name: 'Freeze', in: 'chest-freezer', until: { after_h: 96 } }],
    targets: [{ kind: 'frozen', core_C: -12 }],
  }),
)

describe('78 kg of warm cream in a chest freezer', () => {
  const made = forecast(plan)
  const [report] = made.appliances
  const air = made.curves.air!.map((T) => T!)

  test('the cabinet warms, for how long is told with its band', () => {
    expect(made.quantities.mass_kg).toBeGreaterThan(76)
    expect(report?.answer).toBe('is overloaded')
    // No colder than its massless balance: H 12 W/K or so, 130 W at most with its cap, piece at 60 °C: about +20 °C.
    expect(report!.extreme_C).toBeGreaterThan(20)
    expect(report!.extreme_C).toBeLessThan(50)
    expect(Math.max(...air)).toBeCloseTo(report!.extreme_C, 1)
    expect(report!.beyond_h).toBeGreaterThan(40)
    expect(report!.beyond_low_h!).toBeLessThan(report!.beyond_h)
    expect(report!.beyond_high_h!).toBeGreaterThan(report!.beyond_h)
    expect(report!.extreme_low_C!).toBeLessThan(report!.extreme_C)
    expect(report!.duty!).toBeGreaterThan(0.9)
  })

  test('the capacity alone says that it takes no less', () => {
    // All heat that left, by what the machine can do at most (twice its 80 W) less what the walls let in.
    const least_h = (made.quantities.heat_MJ * 1e6) / 160 / 3600
    const answer = made.answers[0]!
    expect(answer.answer).not.toBe('yes')
    expect(report!.beyond_h).toBeGreaterThan(0.5 * least_h)
    expect(report!.energy_MJ).toBeGreaterThan(made.quantities.heat_MJ)
  })

  test('it is said: in the reports, among the cautions, against the rating of its kind', () => {
    const words = made.cautions.map((caution) => say(caution, metric))
    expect(words.join(' ')).toMatch(/warms the whole of it \(Chest freezer of 230 L\): to 3\d/)
    expect(words.join(' ')).toMatch(/78.* kg at once: its kind is made to freeze 10(\.0)? kg in a day/)
    expect(made.bands.air).toBeDefined()
  })

  test('heat is conserved, piece and cabinet together', () => {
    expect(made.model.energyResidual).toBeLessThan(1e-8)
  })
})

describe('less of it, or a stronger machine', () => {
  const report = (stages: unknown[], thickness_mm = 60, start_C = 4) =>
    forecast(
      readPlan(
        JSON.stringify({
          ...{ format: 'thickset-plan', version: 1, title: 'Slab', startsAt: '2027-03-12T16:00', fidelity: 'quick' },
          piece: {
            shape: { kind: 'block', width_mm: 200, length_mm: 300 },
            fill: [{ material: 'pastry-cream', thickness_mm, start_C }],
          },
          stages,
        }),
      ),
    ).appliances

  test('4 kg at fridge temperature are no burden', () => {
    const [one] = report([{ name: 'Freeze', in: 'chest-freezer', until: { after_h: 48 } }])
    expect(one!.beyond_h).toBeLessThan(8)
    expect(one!.extreme_C).toBeLessThan(-5)
    expect(one!.notes).toEqual([])
  })

  test('a cold room copes with it', () => {
    const [one] = report([{ name: 'Chill', in: 'cold-room', until: { after_h: 12 } }])
    expect(one!.answer).toBe('copes')
    expect(one!.duty!).toBeLessThan(1)
  })

  test('other goods in the freezer warm more slowly than its air', () => {
    const stage = (goods: object) => [
      { name: 'Freeze', in: { like: 'chest-freezer', appliance: goods }, until: { after_h: 24 } },
    ]
    const [bare] = report(stage({}), 150, 60)
    const [full] = report(stage({ goods: { mass_kg: 40 } }), 150, 60)
    expect(full!.followed).toBe('goods')
    expect(full!.extreme_C).toBeLessThan(bare!.extreme_C - 2)
  })

  test('air that is simply given has nothing to cope with', () => {
    expect(report([{ name: 'a', in: { like: 'chest-freezer', appliance: false }, until: { after_h: 2 } }])).toEqual([])
  })
})

describe('an oven', () => {
  const bake = (appliance: object, thickness_mm: number) =>
    forecast(
      readPlan(
        JSON.stringify({
          ...{ format: 'thickset-plan', version: 1, title: 'Sheet', startsAt: '2027-03-12T16:00', fidelity: 'quick' },
          piece: {
            shape: { kind: 'block', width_mm: 380, length_mm: 450 },
            fill: [{ material: 'sponge-batter', thickness_mm, start_C: 22 }],
          },
          stages: [
            { name: 'Bake', in: { like: 'oven-static', appliance }, until: { after_h: 1 } },
            { name: 'Rest', in: 'oven-off-shut', until: { after_h: 3 } },
          ],
        }),
      ),
    )

  test('a small heater sags under a sheet that fills the oven, a great one holds', () => {
    const weak = bake({ heater_W: 900 }, 70).appliances[0]!
    expect(weak).toMatchObject({ answer: 'is overloaded', above: false, limit_C: 170 })
    expect(weak.extreme_C).toBeLessThan(165)
    const strong = bake({ heater_W: 3600 }, 70).appliances[0]!
    expect(strong.answer).toBe('copes')
    expect(strong.energy_MJ).toBeGreaterThan(weak.energy_MJ)
  })

  test('switched off, the core goes on rising and then falls, with the oven falling around it', () => {
    const made = bake({}, 70)
    const off_h = made.stages[0]!.to_h
    const core = made.curves.core!.map((T) => T!)
    const air = made.curves.air!.map((T) => T!)
    const at = made.times_h.findLastIndex((h) => h <= off_h)
    const hottest = core.indexOf(Math.max(...core))
    expect(made.times_h[hottest]!).toBeGreaterThan(off_h + 0.1)
    expect(core[hottest]!).toBeGreaterThan(core[at]! + 2)
    expect(core.at(-1)!).toBeLessThan(core[hottest]! - 3)
    // Falls all the way, fast at first: the cavity holds little, the shell more, the cake most.
    for (let i = at + 2; i < air.length; i++) expect(air[i]!).toBeLessThanOrEqual(air[i - 1]! + 1e-6)
    const quarter = made.times_h.findIndex((h) => h >= off_h + 0.25)
    expect(air[quarter]!).toBeLessThan(150)
    expect(air.at(-1)!).toBeGreaterThan(35)
    expect(made.appliances).toHaveLength(1)
  })

  test('preheated or cold, it tells', () => {
    const cold = bake({ start_C: 22 }, 70)
    const warm = bake({}, 70)
    expect(cold.curves.air![0]).toBeCloseTo(22, 6)
    expect(warm.curves.air![0]).toBeCloseTo(180, 6)
    const coreThen = (made: typeof cold) => made.curves.core!.at(made.times_h.findIndex((h) => h >= 0.8))!
    expect(coreThen(cold)!).toBeLessThan(coreThen(warm)!)
  })
})
