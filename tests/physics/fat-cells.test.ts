import { describe, expect, test } from 'vitest'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import type { Course } from '../../src/core/journey/course.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { getMaterial } from '../../src/core/materials/index.ts'
import { air, held, hours, jobOf, passes, read, stage } from './jobs.ts'

/* Fats set later than they melt, each cell by its own turning points, and no heat is won or lost by it. */

const body = sheetBody({})
const butter = getMaterial('butter')
const chocolate = getMaterial('dark-chocolate')

/** Solid share of the fat and temperature in the middle cell, at every sample. */
function middleOf(course: Course): { T_C: Float64Array; solid: Float64Array } {
  const place = course.places()[0]!
  return { T_C: place.T_C, solid: place.states.solidFat! }
}

describe('butter melted, chilled in hours, and warmed again', () => {
  const stages = [stage(body, held(4), 60), stage(body, held(60), 60)]
  const course = runJourney(jobOf(body, butter, 0.02, 60, stages), { fidelity: 'quick' })
  const { T_C, solid } = middleOf(course)
  const turn = course.stages[0]!.last

  test('keeps its heat in the books', () => expect(course.energyResidual).toBeLessThan(1e-10))
  test('on its way down it has the solid fat of the undercooled curve, on its way up that of the rested one', () => {
    for (let i = 0; i < T_C.length; i++) {
      const down = butter.cooling!.at(T_C[i]!).solid_fat_share
      const up = butter.at(T_C[i]!).solid_fat_share
      expect(solid[i]).toBeGreaterThan(down - 2e-3)
      expect(solid[i]).toBeLessThan(up + 2e-3)
      if (i <= turn) expect(Math.abs(solid[i]! - down)).toBeLessThan(2e-3)
    }
    // Warmed by more than the undercooling it lies on the rested curve.
    const warm = T_C.findIndex((value, i) => i > turn && value > 20)
    expect(Math.abs(solid[warm]! - butter.at(T_C[warm]!).solid_fat_share)).toBeLessThan(2e-3)
  })
  test('what has set stays set until the rested fat would melt', () => {
    const chilled = solid[turn]!
    const first = T_C.findIndex((value, i) => i > turn && value > 8)
    // On a curve the share is read between tenths of a kelvin.
    expect(Math.abs(solid[first]! - chilled)).toBeLessThan(1e-5)
  })
  test('takes up on the way back what it gave off, to a billionth', () => {
    const given = course.heat[turn]!
    expect(Math.abs(course.heat.at(-1)! / given)).toBeLessThan(1e-9)
  })
})

test('turned round half-way, a mass keeps its solid fat both ways', () => {
  const stages = [stage(body, held(14), 60), stage(body, held(18), 60), stage(body, held(14), 60)]
  const course = runJourney(jobOf(body, butter, 0.02, 60, stages), { fidelity: 'quick' })
  const { solid } = middleOf(course)
  const [first, second, third] = course.stages.map(({ last }) => solid[last]!)
  // On a curve the share is read between tenths of a kelvin.
  expect(Math.abs(second! - first!)).toBeLessThan(1e-5)
  expect(Math.abs(third! - first!)).toBeLessThan(1e-5)
  const heat = course.stages.map(({ last }) => course.heat[last]!)
  expect(Math.abs(heat[2]! - heat[0]!)).toBeLessThan(1e-9 * Math.abs(heat[0]!))
  // Between the two temperatures nothing melts: only the heat of the warm mass itself.
  const perK = (heat[1]! - heat[0]!) / 4 / (0.02 * butter.density)
  const molten = butter.molten!
  expect(Math.abs(perK / molten.at(16).c - 1)).toBeLessThan(0.005)
})

test('chocolate as bought, at rest at 20 °C, is as solid as its rested curve says', () => {
  const course = runJourney(jobOf(body, chocolate, 0.02, 20, [stage(body, air(10, 28), 3)]), { fidelity: 'quick' })
  const { T_C, solid } = middleOf(course)
  for (let i = 0; i < T_C.length; i++)
    expect(Math.abs(solid[i]! - chocolate.at(T_C[i]!).solid_fat_share)).toBeLessThan(2e-3)
})

// Tempered cocoa butter does not set above 28 °C (from memory): a mould of it filled at 32 °C gives off its heat of
// setting below that, later than rested fat would.
test('chocolate sets later than it melts', () => {
  const job = jobOf(body, chocolate, 0.02, 40, [stage(body, air(15, 12), 6)])
  const late = runJourney(job, { fidelity: 'standard' })
  const { molten: _, cooling: __, ...rested } = chocolate
  const plain = runJourney(jobOf(body, rested, 0.02, 40, [stage(body, air(15, 12), 6)]), { fidelity: 'standard' })
  // Rested fat sets from 34 °C on and holds the core there; undercooled fat lets it fall first.
  expect(passes(late, late.hottest_C, 30)).toBeLessThan(passes(plain, plain.hottest_C, 30))
  expect(read(late, late.mean_C, 6)).toBeLessThan(13)
  expect(Math.abs(late.heat.at(-1)! / plain.heat.at(-1)! - 1)).toBeLessThan(0.05)
})

test('a mass without late-setting fat carries nothing along', () => {
  const course = runJourney(jobOf(body, getMaterial('gelatin-jelly'), 0.02, 60, [stage(body, air(10, 4), 1)]), {
    fidelity: 'quick',
  })
  expect(course.segments[0]!.states).toEqual({})
  expect(course.t.at(-1)).toBe(hours(1))
})
