import { describe, expect, test } from 'vitest'
import { steady } from '../../src/core/boundary/profile.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import type { Course } from '../../src/core/journey/course.ts'
import type { Job, Stage } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import { around, cabinet, freezerMachine, plainFace } from './appliance-jobs.ts'
import { hours, insulated, jobOf, read } from './jobs.ts'

describe('a block of one temperature in a small freezer', () => {
  // 30 kg of 3300 J/(kg K) with 5 W/K to the air, so conductive that it has one temperature (Bi 1e-4).
  const body = sheetBody({ area: 1 })
  const metal = fixedMaterial({ id: 'metal', title: 'Metal', k: 800, rho: 1000, c: 3300 })
  const stage: Stage = {
    name: 'Freeze',
    start: [],
    faces: { top: plainFace(5), bottom: insulated },
    air_C: steady(-18),
    until: { after: hours(24), max: hours(24) },
    appliance: around(cabinet(freezerMachine(90, -18, Number.POSITIVE_INFINITY), { toRoom: 0.7 })),
  }
  const job: Job = jobOf(body, metal, 0.03, 60, [stage])
  const course: Course = runJourney(job, { fidelity: 'fine' })

  // Closed form of both phases (flat out, then held), worked apart.
  test.each([
    [1, 52.548, 13.263],
    [3, 39.399, 6.193],
    [6, 23.39, -2.414],
    [12, 1.283, -14.3],
    [24, -15.707, -18],
  ])('after %d h', (h, piece, air) => {
    expect(Math.abs(read(course, course.mean_C, h) - piece)).toBeLessThan(0.05)
    expect(Math.abs(read(course, course.air_C, h) - air)).toBeLessThan(0.05)
  })

  test('the air starts warm', () => {
    expect(Math.abs(course.air_C[0]! - 17.2688)).toBeLessThan(0.01)
  })

  test('piece and appliance together conserve heat', () => {
    expect(course.energyResidual).toBeLessThan(1e-8)
  })
})
