import { describe, expect, test } from 'vitest'
import { forecast } from '../../../src/core/forecast.ts'
import { readPlan } from '../../../src/core/plan/read.ts'

const made = (material: string, start_C: number, stages: object[]) =>
  forecast(
    readPlan(
      JSON.stringify({
        ...{ format: 'thickset-plan', version: 1, title: 'One', startsAt: '2027-03-12T16:00', fidelity: 'quick' },
        piece: {
          shape: { kind: 'block', width_mm: 200, length_mm: 300 },
          fill: [{ material, thickness_mm: 60, start_C }],
        },
        stages,
      }),
    ),
  )

describe('what surroundings mean is told', () => {
  const room = made('pastry-cream', 80, [
    { name: 'Bench', in: 'room-still', until: { after_h: 1 } },
    { name: 'Plate', in: 'hot-plate', until: { after_h: 1 } },
  ])
  const [bench, plate] = room.surroundings

  test('heat by its ways adds up to what passed the faces', () => {
    for (const { faces, heat_J } of room.surroundings) {
      const sum = Object.values(heat_J).reduce((a, b) => a + b, 0)
      expect(sum).toBeCloseTo(
        faces.reduce((a, face) => a + face.heat_J, 0),
        3,
      )
    }
    const all = room.surroundings.flatMap(({ faces }) => faces).reduce((a, face) => a + face.heat_J, 0)
    expect(-all / 1e6).toBeCloseTo(room.quantities.heat_MJ, 6)
  })

  test('most of what hot open cream loses evaporates; a plate below gives by contact', () => {
    // Open hot custard: 70 to 90 % of the surface's heat by evaporation; five faces of six are open here.
    const { evaporation, convection, radiation, contact } = bench!.heat_J
    expect(evaporation).toBeLessThan(2 * convection)
    expect(evaporation / (evaporation + convection + radiation)).toBeGreaterThan(0.5)
    expect(contact).toBe(0)
    expect(plate!.heat_J.contact).toBeGreaterThan(0)
    expect(plate!.faces.find(({ face }) => face === 'bottom')?.film).toMatchObject({ low: 250, high: 250 })
  })

  test('films are those of still air on every face, and change as it cools', () => {
    for (const { film } of bench!.faces) {
      expect(film!.low).toBeGreaterThan(1)
      expect(film!.high).toBeLessThan(15)
      expect(film!.end).toBeLessThan(film!.start)
    }
  })
})

describe('dew on chocolate', () => {
  const codes = (material: string, start_C: number, stage: object) =>
    made(material, start_C, [{ name: 'Bench', until: { after_h: 2 }, ...stage }]).cautions.map(({ code }) => code)

  test('from the freezer into a room: warned, once it is unwrapped', () => {
    // 20 °C and 50 %: dew point 9.3 °C (psychrometric tables).
    expect(codes('dark-chocolate', -18, { in: 'room-still' })).toContain('dew-on-chocolate')
    const wrapped = { in: 'room-still', start: [{ do: 'cover', with: 'film', faces: ['all'] }] }
    expect(codes('dark-chocolate', -18, wrapped)).not.toContain('dew-on-chocolate')
  })

  test('not from a cellar of 14 °C, nor on other masses', () => {
    expect(codes('dark-chocolate', 14, { in: 'room-still' })).not.toContain('dew-on-chocolate')
    expect(codes('pastry-cream', -18, { in: 'room-still' })).not.toContain('dew-on-chocolate')
  })
})
