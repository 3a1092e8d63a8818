import { describe, expect, test } from 'vitest'
import { lidConductance } from '../../../src/core/boundary/gap.ts'
import { forecast } from '../../../src/core/forecast.ts'
import { readPlan } from '../../../src/core/plan/read.ts'

const lid = { thickness: 0.05, above: true, emissivities: [0.95, 0.95] } as const

describe('a lid 50 mm above a wet surface', () => {
  // Worked apart from the law of a layer with moist buoyancy and the analogy of Chilton and Colburn: convective, latent,
  // radiative parts 3.0 + 71 + 8.1, 2.7 + 30 + 6.7, 2.3 + 12 + 5.7 W/(m² K). 5 %: their emissivities are not told.
  test.each([
    [80, 65, 82.1],
    [60, 45, 39.4],
    [40, 30, 20],
  ])('face %d °C, lid %d °C', (face, above, expected) => {
    expect(Math.abs(lidConductance(lid, face, above, 1) / expected - 1)).toBeLessThan(0.05)
  })

  test('dry it passes what a closed layer does: 8.8 heated from below 60 to 40, 6.8 from above (worked apart)', () => {
    const dull = { ...lid, emissivities: [0.9, 0.9] as const }
    expect(Math.abs(lidConductance(dull, 60, 40, 0) / 8.8 - 1)).toBeLessThan(0.03)
    expect(Math.abs(lidConductance(dull, 40, 60, 0) / 6.8 - 1)).toBeLessThan(0.03)
    expect(Math.abs(lidConductance({ ...dull, above: false }, 60, 40, 0) / 6.8 - 1)).toBeLessThan(0.03)
  })

  test('a lid warmer than the face gets no water', () => {
    expect(lidConductance(lid, 20, 30, 1)).toBe(lidConductance(lid, 20, 30, 0))
  })
})

describe('in a plan', () => {
  const made = (start: object[], faces: object = {}) =>
    forecast(
      readPlan(
        JSON.stringify({
          ...{ format: 'thickset-plan', version: 1, title: 'Lid', startsAt: '2027-03-12T16:00', fidelity: 'quick' },
          piece: {
            shape: { kind: 'block', width_mm: 300, length_mm: 400 },
            fill: [{ material: 'pastry-cream', thickness_mm: 60, start_C: 80 }],
            mould: [{ faces: ['bottom', 'sides'], material: 'stainless', thickness_mm: 1 }],
          },
          stages: [{ name: 'Cool', in: { like: 'room-still', faces }, start, until: { after_h: 24 } }],
          targets: [{ kind: 'cooled', core_C: 40 }],
        }),
      ),
    )
  const at = (forecast: ReturnType<typeof made>): number => forecast.answers[0]!.at_h!

  test('a lid keeps the heat a little better than film on the cream; both keep its water in', {
    timeout: 120_000,
  }, () => {
    const open = made([])
    const film = made([{ do: 'cover', with: 'film' }])
    const lidded = made([{ do: 'cover', with: 'polypropylene', gap_mm: 50 }])
    expect(at(open)).toBeLessThan(at(film))
    expect(at(lidded)).toBeGreaterThan(at(film))
    // To the room, worked apart, W/(m² K) of the top at 70, 55, 40 °C: film 13, 12, 10, lid 10, 8, 7: a third less.
    expect(at(lidded)).toBeLessThan(1.5 * at(film))
    expect(open.quantities.evaporated_kg!).toBeGreaterThan(0.05)
    expect(lidded.quantities.evaporated_kg ?? 0).toBeLessThan(1e-9)
    expect(lidded.model.energyResidual).toBeLessThan(1e-8)
  })

  test('a base of foam, and a piece alike on top, slow it', { timeout: 120_000 }, () => {
    const bare = made([])
    const foam = made([], { bottom: { board_mm: 30, board: 'foam' } })
    const wood = made([], { bottom: { board_mm: 30 } })
    const stacked = made([], { top: { stacked: true } })
    expect(at(foam)).toBeGreaterThan(at(wood))
    expect(at(wood)).toBeGreaterThan(at(bare))
    expect(at(stacked)).toBeGreaterThan(at(bare))
  })

  test('a board of nothing known is a fault', () => {
    expect(() => made([], { bottom: { board_mm: 30, board: 'moonlight' } })).toThrow(/moonlight/)
  })
})
