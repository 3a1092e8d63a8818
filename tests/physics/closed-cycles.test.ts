import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import type { Course } from '../../src/core/journey/course.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { getMaterial, materialIds } from '../../src/core/materials/index.ts'
import { air, held, jobOf, stage } from './jobs.ts'

/*
 * Whatever a material does on its way, once round a cycle of temperatures takes and gives the same heat: a slice of
 * every built-in material is brought to one temperature after the other, each time until it has come to rest, and back.
 */

const body = sheetBody({})
const THICKNESS = 0.008
/** Long steps of the stabilised kind fade the last millikelvins by a factor of some two each. */
const REST_H = 80

/** Heat left over between the ends of two stages, and all heat moved between them, J/m². */
function cycle(course: Course, from: number, to: number): { readonly left: number; readonly moved: number } {
  const [first, last] = [course.stages[from]!.last, course.stages[to]!.last]
  let moved = 0
  for (let i = first + 1; i <= last; i++) moved += Math.abs(course.heat[i]! - course.heat[i - 1]!)
  return { left: course.heat[last]! - course.heat[first]!, moved }
}

/** Long enough for a film to take a slice through freezing too. */
const FILM = 60
const FILM_REST_H = 150
/** Between two tenths, so that no turn is the very temperature at which all of something changes its phase. */
const tenths = (min: number, max: number) =>
  fc.integer({ min: 10 * min, max: 10 * max }).map((value) => value / 10 + 0.05)
/** Turns anywhere, and turns that go back by little: from a tenth of a kelvin on. */
const turns = fc.oneof(
  fc.array(tenths(-30, 75), { minLength: 2, maxLength: 5 }),
  fc
    .array(fc.tuple(tenths(-5, 40), tenths(0, 4)), { minLength: 1, maxLength: 3 })
    .map((pairs) => pairs.flatMap(([T_C, back_K]) => [T_C, T_C + back_K])),
)
const rounds = fc.record({ from_C: fc.constantFrom(-30, 75), round: turns, isHeld: fc.boolean() })
const ROUNDS_EACH = 4

describe.each(materialIds.map((id, seed) => [id, seed] as const))('%s', (id, seed) => {
  const material = getMaterial(id)
  test('from −30 to 80 °C and back: a billionth of the heat moved', () => {
    const stages = [-30, 80, -30].map((T_C) => stage(body, held(T_C), REST_H))
    const course = runJourney(jobOf(body, material, THICKNESS, 20, stages), { fidelity: 'quick' })
    const { left, moved } = cycle(course, 0, 2)
    expect(moved).toBeGreaterThan(1e5)
    expect(Math.abs(left)).toBeLessThan(1e-9 * moved)
    expect(course.energyResidual).toBeLessThan(1e-9)
  })
  test('to 3 °C and back up, where fats turn round half-way', () => {
    const stages = [60, 3, 22, 3, 60].map((T_C) => stage(body, held(T_C), REST_H))
    const course = runJourney(jobOf(body, material, THICKNESS, 20, stages), { fidelity: 'quick' })
    const { left, moved } = cycle(course, 0, 4)
    expect(Math.abs(left)).toBeLessThan(1e-9 * moved)
  })
  test('any round of temperatures, however small its turns', () => {
    for (const { from_C, round, isHeld } of fc.sample(rounds, { numRuns: ROUNDS_EACH, seed: 20_270_312 + seed })) {
      const [meets, rest_h] = isHeld ? [held, REST_H] : [(T_C: number) => air(FILM, T_C), FILM_REST_H]
      // The first time round it may come from elsewhere; then the round repeats.
      const stages = [from_C, ...round, ...round, round[0]!].map((T_C) => stage(body, meets(T_C), rest_h))
      const course = runJourney(jobOf(body, material, THICKNESS, 20, stages), { fidelity: 'quick' })
      const { left, moved } = cycle(course, 1 + round.length, 1 + 2 * round.length)
      expect(moved).toBeGreaterThan(10)
      expect(Math.abs(left), `${from_C} ${round} ${isHeld ? 'held' : 'in air'}`).toBeLessThan(1e-9 * moved)
      expect(course.energyResidual).toBeLessThan(1e-12)
    }
  })
  if (material.baking !== undefined)
    test('baked dry: what is left over is booked as vapour, and the crust closes its own cycle', () => {
      const stages = [20, 150, 20, 150, 20].map((T_C) => stage(body, held(T_C), REST_H))
      const course = runJourney(jobOf(body, material, THICKNESS, 20, stages), { fidelity: 'quick' })
      const { water, vapour } = { water: course.waterLost.at(-1)!, vapour: course.vapourHeat.at(-1)! }
      expect(water / (THICKNESS * material.density * material.baking!.boilsOut)).toBeCloseTo(1, 12)
      // 2.67 to 2.69 MJ/kg: saturated steam of 100 to 105 °C from liquid at 0 °C (IAPWS-IF97).
      expect(vapour / water).toBeGreaterThan(2.665e6)
      expect(vapour / water).toBeLessThan(2.695e6)
      const { left, moved } = cycle(course, 2, 4)
      expect(moved).toBeGreaterThan(1e5)
      expect(Math.abs(left)).toBeLessThan(1e-9 * moved)
      expect(course.energyResidual).toBeLessThan(1e-9)
    })
})
