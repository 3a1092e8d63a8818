import { describe, expect, test } from 'vitest'
import { blockBody } from '../../src/core/geometry/shapes/block.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import { air, freezingCustard, jobOf, passes, read, stage } from './jobs.ts'

/** Standard is stated with 0.2 K, fine with 0.05 K; times with 0.5 % and 0.1 %. */
const stated = { standard: { K: 0.2, share: 0.005 }, fine: { K: 0.05, share: 0.001 } } as const

/*
 * Source: products of slab solutions (Carslaw, Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, sections 1.15, 3.11);
 * after a change of air the answer is still such a sum, since the problem is linear.
 */
describe.each(['standard', 'fine'] as const)('block baked and cooled, %s', (fidelity) => {
  const body = blockBody({ width: 0.6, length: 0.8 })
  const material = fixedMaterial({ id: 'baked', title: 'Baked', k: 0.4, rho: 500, c: 2800 })
  const job = jobOf(body, material, 0.16, 20, [stage(body, air(25, 180), 4), stage(body, air(8, 25), 12)])
  const course = runJourney(job, { fidelity })
  const { K, share } = stated[fidelity]
  const centre = course.follow({ x: 0.5, y: 0.5, z: 0.5 })
  const face = course.follow({ x: 0.5, y: 1, z: 0.5 })
  const corner = course.follow({ x: 1, y: 1, z: 1 })

  test('centre reaches 80 °C after 2.4671 h', () => {
    expect(Math.abs(passes(course, centre, 80) / 2.4671 - 1)).toBeLessThan(share)
  })
  test.each([
    [4, 114.66, 163.39, 179.69, 146.92],
    [5, 122.66, 84.72, 49.23, 115.71],
    [8, 88.8, 59.03, 30.56, 70.75],
  ])('after %s h: centre, middle of the large face, corner, mean', (h, atCentre, atFace, atCorner, mean) => {
    expect(Math.abs(read(course, centre, h) - atCentre)).toBeLessThan(K)
    expect(Math.abs(read(course, face, h) - atFace)).toBeLessThan(K)
    expect(Math.abs(read(course, corner, h) - atCorner)).toBeLessThan(K)
    expect(Math.abs(read(course, course.mean_C, h) - mean)).toBeLessThan(K)
  })
})

/* Source: two independent programs of the method of lines, agreeing within 0.001 K; no printed table. */
describe.each(['standard', 'fine'] as const)('slab of freezing custard, %s', (fidelity) => {
  const body = sheetBody({})
  const job = jobOf(body, freezingCustard, 0.12, 60, [stage(body, air(12, 20), 4), stage(body, air(12, -20), 48)])
  const course = runJourney(job, { fidelity })
  const { K, share } = stated[fidelity]
  const centre = course.follow({ x: 0.5, y: 0.5, z: 0.5 })
  const face = course.follow({ x: 0.5, y: 1, z: 0.5 })

  test('centre reaches −10 °C after 36.204 h', () => {
    expect(Math.abs(passes(course, centre, -10) / 36.204 - 1)).toBeLessThan(share)
  })
  test.each([
    [8, 22.78, 4.0, 16.32],
    [16, -1.28, -5.36, -2.33],
    [24, -2.13, -7.86, -4.47],
    [36, -9.79, -12.28, -10.66],
  ])('after %s h: centre, face, mean', (h, atCentre, atFace, mean) => {
    expect(Math.abs(read(course, centre, h) - atCentre)).toBeLessThan(K)
    expect(Math.abs(read(course, face, h) - atFace)).toBeLessThan(K)
    expect(Math.abs(read(course, course.mean_C, h) - mean)).toBeLessThan(K)
  })
})
