import { describe, expect, test } from 'vitest'
import { steady } from '../../src/core/boundary/profile.ts'
import { elementaryFaces } from '../../src/core/geometry/body.ts'
import { buildBody } from '../../src/core/geometry/shapes/index.ts'
import type { Job, Stage } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { getMaterial } from '../../src/core/materials/index.ts'
import { oven } from './baking-jobs.ts'
import { air, hours } from './jobs.ts'

/* Batter in shapes whose axes turn, slant or run together: books and bounds hold there too, and symmetry. */

const sponge = getMaterial('sponge-batter')
const shapes = [
  ['half-round', { kind: 'trough', radius_mm: 90, length_mm: 900 }, null],
  ['half-round, thick', { kind: 'trough', radius_mm: 90, length_mm: 150 }, null],
  ['log', { kind: 'log', diameter_mm: 120, length_mm: 900 }, null],
  ['dome', { kind: 'dome', radius_mm: 90 }, null],
  ['ring', { kind: 'ring', outer_mm: 260, inner_mm: 80 }, 0.09],
  ['stirred', { kind: 'stirred', volume_L: 3 }, null],
] as const

describe.each(shapes)('%s', (_, shape, thickness) => {
  const body = buildBody(shape)
  const faces = elementaryFaces(body)
  const all = (condition: ReturnType<typeof air>): Stage['faces'] =>
    Object.fromEntries(faces.map((face) => [face, condition]))
  const during = (condition: ReturnType<typeof air>, air_C: number, h: number): Stage => ({
    name: 'stage',
    start: [],
    faces: all(condition),
    air_C: steady(air_C),
    until: { after: hours(h), max: hours(100) },
  })
  const job: Job = {
    body,
    lining: [],
    fill: [{ name: 'fill[0]', material: sponge, thickness, start_C: 20 }],
    probes: [],
    stages: [during(oven(10, 190), 190, 1.5), during(air(8, 5), 5, 1)],
  }
  test('heat in the books, nothing beyond its causes, water lost for good', () => {
    const course = runJourney(job, { fidelity: 'quick' })
    expect(course.energyResidual).toBeLessThan(1e-9)
    for (const segment of course.segments)
      for (const T_C of segment.T_C)
        for (const value of T_C) {
          if (Number.isNaN(value)) continue
          expect(value).toBeGreaterThan(4.98)
          expect(value).toBeLessThan(190.02)
        }
    for (let i = 1; i < course.waterLost.length; i++)
      expect(course.waterLost[i]).toBeGreaterThanOrEqual(course.waterLost[i - 1]! - 1e-12)
    expect(course.waterLost.at(-1)).toBeGreaterThan(0)
  })
})
