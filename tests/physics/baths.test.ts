import { describe, expect, test } from 'vitest'
import { forecast } from '../../src/core/forecast.ts'
import type { Forecast } from '../../src/core/forecast-types.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { say } from '../../src/core/words/sentences.ts'
import { metric } from '../../src/core/words/show.ts'

/* Baths of limited heat and ice, by balances of heat that need no solver. */

const made = (surroundings: object | string, start_C: number, after_h: number): Forecast =>
  forecast(
    readPlan(
      JSON.stringify({
        ...{ format: 'thickset-plan', version: 1, title: 'Bath', startsAt: '2027-03-12T16:00', fidelity: 'quick' },
        materials: { mass: { fixed: { k_W_mK: 0.55, rho_kg_m3: 1000, c_J_kgK: 4000 } } },
        piece: {
          shape: { kind: 'sheet', area_m2: 0.075 },
          fill: [{ material: 'mass', thickness_mm: 40, start_C }],
          mould: [{ faces: ['bottom'], material: 'stainless', thickness_mm: 1 }],
        },
        stages: [{ name: 'In the bath', in: surroundings, until: { after_h } }],
        targets: [{ kind: 'cooled', core_C: 10 }],
      }),
    ),
  )

/** 1 mm of stainless steel on 0.075 m², J/K. */
const mould = 7900 * 460 * 0.001 * 0.075

/** The top neither gives nor takes, so that bath and piece are alone with each other. */
const alone = { top: { h_W_m2K: 0 } }

describe('a bath with a heater', () => {
  const bath = { like: 'water-bath', faces: alone }
  const still = { UA_W_K: 0, water_kg: 6 }

  test('without losses or heater, bath and piece come to what their heat tells', () => {
    const { curves, model } = made({ ...bath, appliance: { ...still, off: true, start_C: 80 } }, 20, 30)
    // 6 kg of water (4186 J/(kg K)) at 80 °C, 3 kg of 4000 J/(kg K) and their mould at 20 °C.
    const expected = (6 * 4186 * 80 + (3 * 4000 + mould) * 20) / (6 * 4186 + 3 * 4000 + mould)
    expect(Math.abs(curves.mean!.at(-1)! - expected)).toBeLessThan(0.1)
    expect(Math.abs(curves.air!.at(-1)! - expected)).toBeLessThan(0.1)
    expect(model.energyResidual).toBeLessThan(1e-8)
  })

  test('its heater brings cold water up in the time that its power tells', () => {
    const { curves, times_h } = made({ ...bath, appliance: { ...still, start_C: 20, heater_W: 1500 } }, 20, 2)
    const at = times_h[curves.air!.findIndex((T_C) => T_C! > 79.9)]!
    const alone_h = (6 * 4186 * 59.9) / 1500 / 3600
    // The piece takes its share meanwhile: 3 kg of 4000 J/(kg K), at most to 80 °C as well.
    expect(at).toBeGreaterThan(alone_h)
    expect(at).toBeLessThan(alone_h + (3 * 4000 * 60) / 1500 / 3600)
  })

  test('a thermostat that switches; a heater too small sags, and that is said', () => {
    const switching = made({ ...bath, appliance: { thermostat_K: 1 } }, 20, 2)
    expect(switching.model.energyResidual).toBeLessThan(1e-8)
    expect(Math.max(...switching.curves.air!.map(Number))).toBeLessThan(82.5)
    const weak = made({ ...bath, appliance: { water_kg: 2, heater_W: 100, UA_W_K: 0 } }, 5, 3)
    expect(weak.appliances[0]).toMatchObject({ answer: 'is overloaded', above: false })
    expect(weak.appliances[0]!.extreme_C).toBeLessThan(69)
    expect(switching.appliances[0]!.answer).toBe('copes')
  })
})

describe('a bath of ice', () => {
  const bath = (ice_kg: number) => ({
    like: 'ice-bath-stirred',
    faces: alone,
    appliance: { UA_W_K: 0, water_kg: 5, ice_kg },
  })

  test('as much ice melts as the heat of the piece asks for', () => {
    const { appliances, model } = made(bath(10), 80, 12)
    const { notes, answer, extreme_C } = appliances[0]!
    // 3 kg of 4000 J/(kg K) from 80 °C to the bath's 1 °C, 333.6 kJ/kg: 2.84 kg, and the mould 0.03.
    expect(notes[0]!.code).toBe('ice-left')
    expect(Math.abs(Number(notes[0]!.values.melted_kg) / ((3 * 4000 * 79) / 333_600) - 1)).toBeLessThan(0.03)
    expect(answer).toBe('copes')
    expect(extreme_C).toBeCloseTo(1, 6)
    expect(model.energyResidual).toBeLessThan(1e-8)
  })

  test('once it is gone, the bath warms, and that is said', () => {
    const { appliances, curves } = made(bath(1), 80, 20)
    expect(appliances[0]!.notes[0]!.code).toBe('ice-gone')
    expect(appliances[0]!.answer).toBe('is overloaded')
    // What the ice does not take, 5 kg of water and the ice's own do.
    const left = 3 * 4000 * 79 + mould * 19 - 333_600
    const expected = 1 + left / (6 * 4186 + 3 * 4000 + mould)
    // A second's heat more than the ice had: 3 kJ of 37 kJ/K.
    expect(Math.abs(curves.air!.at(-1)! - expected)).toBeLessThan(0.1)
  })

  test('half ice, half water is taken where nothing is told, and told', () => {
    const notes = made('ice-bath-still', 80, 2)
      .model.notes.map((note) => say(note, metric))
      .join(' ')
    expect(notes).toMatch(/20\.0 kg of ice in 20\.0 kg of water|20 kg of ice in 20 kg of water/)
  })
})
