import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import type { Course } from '../../src/core/journey/course.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { getMaterial, materialIds } from '../../src/core/materials/index.ts'
import { air, held, jobOf, stage } from './jobs.ts'

/*
 * Whatever a material does on its way, once round a cycle of temperatures takes and gives the same heat: a slice of
 * every built-in material is held cold, warmed through, and held cold again, each time until it has come to rest.
 */

const body = sheetBody({})
const THICKNESS = 0.008
/** Long steps of the stabilised kind fade the last millikelvins by a factor of some two each. */
const REST_H = 30

/** Heat left over between the ends of two stages, and all heat moved between them, J/m². */
function cycle(course: Course, from: number, to: number): { readonly left: number; readonly moved: number } {
  const [first, last] = [course.stages[from]!.last, course.stages[to]!.last]
  let moved = 0
  for (let i = first + 1; i <= last; i++) moved += Math.abs(course.heat[i]! - course.heat[i - 1]!)
  return { left: course.heat[last]! - course.heat[first]!, moved }
}

/** Films, unlike held surfaces, never throw a cell past where it goes; then rest takes longer, most of all in freezing. */
const FILM = 60
const SLOW_REST_H = 80
/** Temperatures of a round, and two turns within a turn: down, some way up and down again; up, some way down and up. */
const tenths = (min: number, max: number) => fc.integer({ min: 10 * min, max: 10 * max }).map((value) => value / 10)
const rounds = fc.record({
  round: fc.array(tenths(-30, 75), { minLength: 3, maxLength: 5 }),
  low_C: tenths(-5, 30),
  up_K: tenths(5, 9),
  high_C: tenths(10, 35),
  down_K: tenths(5, 9),
})

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
  test('any round of temperatures, and turns within a turn', () => {
    for (const { round, low_C, up_K, high_C, down_K } of fc.sample(rounds, { numRuns: 1, seed: 20_270_312 + seed })) {
      const turns = [75, low_C, low_C + up_K, low_C, -30, high_C, high_C - down_K, high_C]
      const stages = [...turns, ...round, ...round, round[0]!].map((T_C) => stage(body, air(FILM, T_C), SLOW_REST_H))
      const course = runJourney(jobOf(body, material, THICKNESS, 20, stages), { fidelity: 'quick' })
      const again = turns.length + round.length
      // The first time round it may come from elsewhere; then the round repeats.
      for (const [from, to] of [
        [1, 3],
        [5, 7],
        [again, again + round.length],
      ] as const) {
        const { left, moved } = cycle(course, from, to)
        expect(moved).toBeGreaterThan(1e3)
        expect(Math.abs(left), `${turns} ${round}, stages ${from} to ${to}`).toBeLessThan(1e-9 * moved)
      }
      expect(course.energyResidual).toBeLessThan(1e-9)
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
