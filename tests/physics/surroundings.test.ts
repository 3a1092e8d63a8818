import { describe, expect, test } from 'vitest'
import { vapourFilm } from '../../src/core/boundary/evaporation.ts'
import type { FaceCondition } from '../../src/core/boundary/face.ts'
import { steady } from '../../src/core/boundary/profile.ts'
import { vapourPressure, wetBulb } from '../../src/core/boundary/psychrometrics.ts'
import { drySurface } from '../../src/core/boundary/wet-surface.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import type { Job, Stage } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { getMaterial } from '../../src/core/materials/index.ts'
import { solveSurface } from '../../src/core/solver/law-link.ts'
import { around, chest, inRoom, lawFace, lawFaces, oven, plainFace } from './appliance-jobs.ts'
import { air, cream, freezingCustard, hours, insulated, jobOf, read } from './jobs.ts'

const stageOf = (faces: Stage['faces'], h: number, over: Partial<Stage> = {}): Stage => ({
  name: 'stage',
  start: [],
  faces,
  air_C: steady(20),
  until: { after: hours(h), max: hours(h) },
  ...over,
})

describe('conservation with films of laws', () => {
  const slab = sheetBody({ area: 0.24 })
  const custard = getMaterial('pastry-cream')
  const open = lawFaces(['top', 'bottom'], { open: true })
  const switching = chest(120)
  const jobs: Record<string, Job> = {
    'hot and open in a room': jobOf(slab, custard, 0.08, 85, [
      stageOf({ top: inRoom(open.top!, 20, { relative: 0.5 }), bottom: insulated }, 6),
    ]),
    'warm in a chest freezer': jobOf(slab, custard, 0.08, 60, [
      stageOf(open, 24, { appliance: around(chest(), { humidity: { relative: 0.85 } }) }),
    ]),
    'in a freezer whose thermostat switches': jobOf(slab, custard, 0.08, 20, [
      stageOf(open, 24, {
        appliance: around({
          ...switching,
          machine: { ...(switching.machine as Extract<typeof switching.machine, { kind: 'cooling' }>), band: 2 },
        }),
      }),
    ]),
    'in an oven, then in the same oven switched off': jobOf(slab, cream, 0.05, 20, [
      stageOf(open, 0.7, {
        appliance: around(oven({ kind: 'heating', set_C: 180, rated: 2500 }), {
          vapour: 'leaves',
          humidity: { kg_kg: 0.03 },
        }),
      }),
      stageOf(open, 2, { appliance: around(oven({ kind: 'off' }), { vapour: 'leaves', humidity: { kg_kg: 0.03 } }) }),
    ]),
    'frozen, then into a damp room: frost, dew, thaw': jobOf(slab, freezingCustard, 0.04, -18, [
      stageOf({ top: inRoom(open.top!, 25, { relative: 0.6 }), bottom: insulated }, 10),
    ]),
    'with a door that opens': jobOf(slab, cream, 0.05, 4, [
      stageOf(open, 3, {
        appliance: around({ ...chest(), openings: [{ from: 3600, to: 3660, conductance: 40 }] }),
      }),
    ]),
  }
  test.each(Object.entries(jobs))('%s', (_, job) => {
    const course = runJourney(job, { fidelity: 'quick' })
    expect(course.energyResidual).toBeLessThan(1e-8)
  })
})

describe('a law face with nothing but a film', () => {
  const slab = sheetBody({ area: 1 })
  const plain = (h: number, air_C: number) => inRoom(plainFace(h), air_C)
  const pair = (lawful: Stage['faces'], given: Stage['faces'], material = freezingCustard, start_C = 60) =>
    [lawful, given].map((faces) =>
      runJourney(jobOf(slab, material, 0.08, start_C, [stageOf(faces, 20)]), { fidelity: 'standard' }),
    )

  test('is the plain film of the solver', () => {
    const [law, given] = pair({ top: plain(15, -20), bottom: insulated }, { top: air(15, -20), bottom: insulated })
    // The same conductances from the same state; only the steps may fall otherwise.
    for (const h of [1, 5, 12, 19])
      expect(Math.abs(read(law!, law!.mean_C, h) - read(given!, given!.mean_C, h))).toBeLessThan(0.02)
    expect(law!.heat.at(-1)! / given!.heat.at(-1)!).toBeCloseTo(1, 4)
  })

  test('with radiation too, through a wall too', () => {
    const radiating = { ...plainFace(6), emissivity: 0.9, resistances: [{ name: 'wall', R: 0.05 }] }
    const lawful = { ...radiating, ambient: { air_C: steady(4), walls_C: steady(0) } }
    const given: FaceCondition = {
      ...{ kind: 'convective', h: 6, air_C: steady(4), resistances: [{ name: 'wall', R: 0.05 }] },
      radiation: { emissivity: 0.9, walls_C: steady(0) },
    }
    const [law, plainly] = pair({ top: lawful, bottom: insulated }, { top: given, bottom: insulated }, cream, 80)
    // The plain film corrects its outermost surface once a step, the law until it is found: 0.03 K here.
    for (const h of [1, 5, 12, 19])
      expect(Math.abs(read(law!, law!.mean_C, h) - read(plainly!, plainly!.mean_C, h))).toBeLessThan(0.05)
  })

  test('its heat is told by its ways, and they add up', () => {
    const face = lawFace({ kind: 'up', areaOverPerimeter: 0.1, along: 0.4 }, { open: true })
    const faces = { top: inRoom(face, 20, { relative: 0.5 }), bottom: insulated }
    const course = runJourney(jobOf(slab, getMaterial('pastry-cream'), 0.08, 85, [stageOf(faces, 5)]), {
      fidelity: 'quick',
    })
    const { ways, evaporated } = course.around!
    const of = (way: 'convected' | 'radiated' | 'latent' | 'melting') => ways[way].top!.at(-1)!
    expect(of('convected') + of('radiated') - of('latent') - of('melting')).toBeCloseTo(
      course.heatThrough.top!.at(-1)!,
      3,
    )
    // What left took the heat of evaporation of 30 to 85 °C with it: 2.30 to 2.43 MJ/kg (steam tables).
    const perKilogram = of('latent') / evaporated.at(-1)! / 1e6
    expect(perKilogram).toBeGreaterThan(2.3)
    expect(perKilogram).toBeLessThan(2.43)
    expect(course.waterLost.at(-1)!).toBeCloseTo(evaporated.at(-1)!, 9)
  })
})

describe('a wet surface with nothing behind it', () => {
  const wet = { ...drySurface(), activity: 1, boils_C: 100, reserve: 1, fullReserve: 1 }
  const heat = { T_C: 0, q: 0, slope: 0, convected: 0, radiated: 0, latent: 0, melting: 0, vapour: 0, radiative: 0 }
  function settles(film: number, emissivity: number, T_C: number, W: number, activity = 1): number {
    const vapour = vapourPressure({ kg_kg: W }, T_C)
    let surface_C = 50
    // The film of vapour belongs to the temperature that it brings about.
    for (let pass = 0; pass < 20; pass++) {
      const film_C = (surface_C + T_C) / 2
      const perPascal = vapourFilm(film, film_C) / (461.52 * (film_C + 273.15))
      const ambient = { air_C: T_C, walls_C: T_C, vapour, film, emissivity, perPascal, skin: 1 }
      solveSurface(ambient, { ...wet, activity }, 1e9, 50, surface_C, heat)
      surface_C = heat.T_C
    }
    return surface_C
  }

  // Worked apart: air and walls of an oven, film, emissivity, water activity.
  test.each([
    [150, 0.03, 8, 0, 1, 47.5],
    [180, 0.03, 8, 0, 1, 50.3],
    [180, 0.03, 8, 0.9, 1, 63.4],
    [180, 0.03, 25, 0.9, 1, 55.4],
    [180, 0.03, 25, 0.9, 0.85, 58.5],
    [180, 0.1, 8, 0.9, 1, 70.5],
    [220, 0.03, 25, 0.9, 1, 60.2],
  ])(
    'air of %d °C with %d kg/kg, film %d, emissivity %d, activity %d: %d °C',
    (T, W, film, emissivity, aw, expected) => {
      // 0.6 K: heat of evaporation and diffusivity by other fits.
      expect(Math.abs(settles(film, emissivity, T, W, aw) - expected)).toBeLessThan(0.6)
    },
  )

  test('is at the wet bulb without radiation, above it with', () => {
    for (const [T, W] of [
      [150, 0.03],
      [180, 0.01],
      [180, 0.3],
      [220, 0.03],
    ] as const) {
      const bulb = wetBulb(T, W)
      expect(Math.abs(settles(15, 0, T, W) - bulb)).toBeLessThan(1.1)
      expect(settles(15, 0.9, T, W)).toBeGreaterThan(bulb + 2)
      expect(settles(15, 0.9, T, W)).toBeLessThan(100)
    }
  })
})

describe('water that comes and goes', () => {
  const slab = sheetBody({ area: 1 })
  const face = (open: boolean) => lawFace({ kind: 'up', areaOverPerimeter: 0.1, along: 0.4 }, { open })

  test('a covered cream loses none, an open one cools faster at its surface', () => {
    const [open, covered] = [true, false].map((bare) =>
      runJourney(
        jobOf(slab, getMaterial('pastry-cream'), 0.1, 85, [
          stageOf({ top: inRoom(face(bare), 20, { relative: 0.5 }), bottom: insulated }, 2),
        ]),
        { fidelity: 'quick' },
      ),
    )
    expect(covered!.around!.evaporated.at(-1)).toBe(0)
    expect(open!.around!.evaporated.at(-1)!).toBeGreaterThan(0.3)
    // No more than a still pool as hot as the start would lose in the time: 10 to 12 kg/(m² h) at 85 °C.
    expect(open!.around!.evaporated.at(-1)!).toBeLessThan(10)
    expect(read(open!, open!.surface_C, 0.5)).toBeLessThan(read(covered!, covered!.surface_C, 0.5) - 5)
  })

  test('a cold piece collects dew until it is past the dew point, then loses it again', () => {
    const faces = { top: inRoom(face(false), 25, { relative: 0.6 }), bottom: insulated }
    const course = runJourney(jobOf(slab, cream, 0.02, 3, [stageOf(faces, 24)]), { fidelity: 'quick' })
    const { condensed, evaporated } = course.around!
    const gained = condensed.at(-1)!
    // Dew point 16.7 °C; at 5 °C 0.12 kg/(m² h) settle (worked apart).
    expect(gained).toBeGreaterThan(0.02)
    expect(gained).toBeLessThan(0.12 * 4)
    const warm = course.t.findIndex((_, i) => course.surface_C[i]! > 16.9)
    expect(condensed.at(-1)! - condensed[warm]!).toBeLessThan(1e-3)
    // What settled dries again, no more.
    expect(evaporated.at(-1)!).toBeGreaterThan(0.5 * gained)
    expect(evaporated.at(-1)!).toBeLessThan(gained * 1.01)
  })

  test('frost melts with the heat of melting before its place gets warm', () => {
    const room = (humid: number) =>
      runJourney(
        jobOf(slab, cream, 0.01, -18, [
          stageOf({ top: inRoom(face(false), 25, { relative: humid }), bottom: insulated }, 3),
        ]),
        { fidelity: 'quick' },
      )
    const damp = room(0.6)
    const { melting } = damp.around!.ways
    const frost = damp.around!.condensed
    // All frost that came while the surface was frozen melts: 333.6 kJ/kg; what settled above 0 °C never was frost.
    const atMelting = damp.surface_C.findIndex((T) => T > 0)
    expect(melting.top!.at(-1)!).toBeGreaterThan(0.9 * 333_600 * frost[atMelting]!)
    expect(melting.top!.at(-1)!).toBeLessThan(1.05 * 333_600 * frost.at(-1)!)
    expect(room(0.05).around!.condensed.at(-1)!).toBeLessThan(0.1 * frost.at(-1)!)
  })

  test('a batter in the oven stays near the wet bulb while its surface is wet, then dries', () => {
    const faces = lawFaces(['top', 'bottom'], { open: true })
    const stage = stageOf({ ...faces, bottom: insulated }, 1, {
      appliance: around(oven({ kind: 'heating', set_C: 180, rated: 5000 }), {
        vapour: 'leaves',
        humidity: { kg_kg: 0.03 },
      }),
    })
    const course = runJourney(jobOf(sheetBody({ area: 0.2 }), getMaterial('sponge-batter'), 0.05, 22, [stage]), {
      fidelity: 'standard',
    })
    // Radiation lifts it 7 to 17 K above the wet bulb of 50 °C; a cold inside pulls it down.
    const early = read(course, course.surface_C, 0.08)
    expect(early).toBeGreaterThan(45)
    expect(early).toBeLessThan(75)
    expect(course.surface_C.at(-1)!).toBeGreaterThan(105)
  })
})

describe('steps and cells', () => {
  test('quick, standard and fine agree about a warm piece in a chest freezer', () => {
    const job = jobOf(sheetBody({ area: 0.24 }), getMaterial('pastry-cream'), 0.08, 60, [
      stageOf(lawFaces(['top', 'bottom']), 30, { appliance: around(chest(), { humidity: { relative: 0.85 } }) }),
    ])
    const [quick, standard, fine] = (['quick', 'standard', 'fine'] as const).map((fidelity) =>
      runJourney(job, { fidelity }),
    )
    for (const h of [0.5, 2, 8, 16, 28]) {
      const air = (course: typeof fine) => read(course!, course!.air_C, h)
      const mean = (course: typeof fine) => read(course!, course!.mean_C, h)
      expect(Math.abs(mean(standard) - mean(fine))).toBeLessThan(0.25)
      expect(Math.abs(mean(quick) - mean(fine))).toBeLessThan(1.2)
      expect(Math.abs(air(standard) - air(fine))).toBeLessThan(0.8)
    }
  })

  test('the machine is booked for what its law says', () => {
    const job = jobOf(sheetBody({ area: 0.24 }), getMaterial('pastry-cream'), 0.08, 60, [
      stageOf(lawFaces(['top', 'bottom']), 30, { appliance: around(chest(), { humidity: { relative: 0.85 } }) }),
    ])
    const course = runJourney(job, { fidelity: 'standard' })
    const { machine, appliances } = course.around!
    let law = 0
    for (let i = 1; i < course.t.length; i++)
      law += ((machine[i]! + machine[i - 1]!) / 2) * (course.t[i]! - course.t[i - 1]!)
    // What the steps leave over (third order) the machine takes: under a per cent.
    expect(Math.abs(appliances[0]!.heat.machine / law - 1)).toBeLessThan(0.01)
  })
})
