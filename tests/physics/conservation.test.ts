import { describe, expect, test } from 'vitest'
import { steady } from '../../src/core/boundary/profile.ts'
import { cellsThere } from '../../src/core/geometry/mesh.ts'
import { barBody } from '../../src/core/geometry/shapes/bar.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import type { Job } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import {
  air,
  boilingBatter,
  cream,
  everyShape,
  everywhere,
  freezingCustard,
  held,
  hours,
  insulated,
  jobOf,
  stage,
} from './jobs.ts'

const materials = { cream, 'freezing custard': freezingCustard, 'boiling batter': boilingBatter }
const causes = {
  'warm air': air(12, 40),
  'freezer air': air(15, -25),
  'oven air': air(20, 180),
  'cold plate': held(-20),
  'hot plate': held(140),
}

describe.each(everyShape)('$name', ({ body, height }) => {
  for (const [materialName, material] of Object.entries(materials)) {
    for (const [causeName, cause] of Object.entries(causes)) {
      test(`${materialName} in ${causeName}: heat in = heat stored, and nothing leaves its causes`, () => {
        const job = jobOf(body, material, height, 20, [stage(body, cause, 3), stage(body, air(8, 5), 2)])
        const course = runJourney(job, { fidelity: 'quick' })
        expect(course.energyResidual).toBeLessThan(1e-8)
        const outside =
          cause.kind === 'convective' ? cause.air_C.at(0) : cause.kind === 'fixed' ? cause.surface_C.at(0) : 0
        const low = Math.min(20, 5, outside)
        const high = Math.max(20, 5, outside)
        for (const segment of course.segments) {
          for (const T_C of segment.T_C) {
            for (const cell of cellsThere(segment.mesh)) {
              const value = T_C[cell]!
              expect(value).toBeGreaterThan(low - 0.02)
              expect(value).toBeLessThan(high + 0.02)
            }
          }
        }
      })
    }
  }

  test('uniform start in air of equal temperature: nothing moves', () => {
    const course = runJourney(jobOf(body, cream, height, 20, [stage(body, air(12, 20), 24)]), { fidelity: 'quick' })
    const { mesh, T_C } = course.segments[0]!
    for (const cell of cellsThere(mesh)) expect(Math.abs(T_C.at(-1)![cell]! - 20)).toBeLessThan(1e-11)
  })

  test('insulated all round: the mean stays', () => {
    const job = jobOf(body, cream, height, 20, [stage(body, air(12, 90), 2), stage(body, insulated, 200)])
    const course = runJourney(job, { fidelity: 'quick' })
    const start = course.stages[1]!.first
    expect(course.mean_C.at(-1)!).toBeCloseTo(course.mean_C[start]!, 9)
    expect(course.hottest_C.at(-1)! - course.coldest_C.at(-1)!).toBeLessThan(0.05)
  })
})

test('frozen and thawed back: heat out equals heat in', () => {
  const body = sheetBody({})
  const job = jobOf(body, freezingCustard, 0.08, 10, [stage(body, held(-20), 30), stage(body, held(10), 400)])
  const course = runJourney(job, { fidelity: 'quick' })
  const frozen = course.heat[course.stages[0]!.last]!
  expect(Math.abs(course.heat.at(-1)! / frozen)).toBeLessThan(1e-6)
})

test('a hot layer poured on a cold one: heat goes nowhere else', () => {
  const body = barBody({ width: 0.3, length: 1 })
  const pour = { name: 'stages[1].start[0]', material: cream, thickness: 0.06, start_C: 85 }
  const job: Job = {
    body,
    lining: [{ name: 'lining[0]', material: boilingBatter, thickness: 0.01, start_C: 20 }],
    fill: [{ name: 'fill[0]', material: freezingCustard, thickness: 0.05, start_C: 15 }],
    probes: [],
    stages: [
      stage(body, air(10, -20), 2),
      { ...stage(body, insulated, 6), start: [{ do: 'pour', layer: pour }], air_C: steady(20) },
    ],
  }
  const course = runJourney(job, { fidelity: 'quick' })
  expect(course.energyResidual).toBeLessThan(1e-12)
  const before = course.stages[0]!.last
  expect(course.heat.at(-1)!).toBeCloseTo(course.heat[before]!, 6)
  // The poured layer has cooled, what lay below has warmed.
  const places = course.places()
  const mean = (layer: string, sample: 'first' | 'last'): number => {
    const own = places.filter((place) => place.layer === layer)
    const volume = own.reduce((sum, place) => sum + place.volume, 0)
    const start = own[0]!.t.findIndex((t, i) => t >= hours(2) && own[0]!.t[i + 1]! > t)
    return (
      own.reduce((sum, place) => sum + place.volume * (sample === 'first' ? place.T_C[start]! : place.T_C.at(-1)!), 0) /
      volume
    )
  }
  expect(mean('stages[1].start[0]', 'last')).toBeLessThan(mean('stages[1].start[0]', 'first') - 5)
  expect(mean('fill[0]', 'last')).toBeGreaterThan(mean('fill[0]', 'first') + 2)
})

test('a given heat flow is stored to the last joule', () => {
  const body = sheetBody({})
  const flux = { kind: 'flux', q: steady(500) } as const
  const job = jobOf(body, cream, 0.05, 20, [
    { ...stage(body, insulated, 1, { bottom: flux }), faces: { ...everywhere(body, insulated), bottom: flux } },
  ])
  const course = runJourney(job, { fidelity: 'quick' })
  expect(course.heat.at(-1)!).toBeCloseTo(500 * 3600, 3)
  expect(course.mean_C.at(-1)!).toBeCloseTo(20 + (500 * 3600) / (0.05 * 1050 * 3500), 6)
})
