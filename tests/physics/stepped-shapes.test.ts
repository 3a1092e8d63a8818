import { describe, expect, test } from 'vitest'
import type { Body } from '../../src/core/geometry/body.ts'
import { depthOf } from '../../src/core/geometry/mesh.ts'
import { ballBody } from '../../src/core/geometry/shapes/ball.ts'
import { roundBody } from '../../src/core/geometry/shapes/round.ts'
import { shellBody } from '../../src/core/geometry/shapes/shell.ts'
import { tiersBody } from '../../src/core/geometry/shapes/tiers.ts'
import type { Course } from '../../src/core/journey/course.ts'
import type { Job, Stage } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { air, cream, held, hours, insulated, jobOf, read, stage } from './jobs.ts'

/* Rounds on each other and hollow balls. Volumes and areas of cylinders and balls: any handbook, from memory. */

const lastMesh = (course: Course) => course.segments[course.segments.length - 1]!.mesh
const areaOf = (course: Course, face: string): number =>
  lastMesh(course).boundary.reduce((sum, link) => sum + (link.face === face ? link.area : 0), 0) *
  lastMesh(course).measure
const volumeOf = (course: Course, name: string): number => {
  const mesh = lastMesh(course)
  const layer = mesh.layers.findIndex((one) => one.name === name)
  return mesh.volume.reduce((sum, volume, cell) => sum + (mesh.layerOf[cell] === layer ? volume : 0), 0) * mesh.measure
}
const quick = (job: Job): Course => runJourney(job, { fidelity: 'quick' })
const disc = (diameter: number): number => (Math.PI / 4) * diameter ** 2

const cake = tiersBody([{ diameter: 0.3, height: 0.1 }, { diameter: 0.2, height: 0.08 }, { diameter: 0.1 }])
const cool: Stage = stage(cake, air(10, 5), 0.2)

describe('volumes and faces are those of the solid, however coarse the grid', () => {
  const layers = (...thicknesses: number[]): Job => ({
    ...jobOf(cake, cream, 0.25, 20, [cool]),
    fill: thicknesses.map((thickness, i) => ({ name: `fill[${i}]`, material: cream, thickness, start_C: 20 })),
  })

  test('tiers: layers go through them at any height', () => {
    const course = quick(layers(0.06, 0.15, 0.04))
    expect(volumeOf(course, 'fill[0]') / (disc(0.3) * 0.06)).toBeCloseTo(1, 9)
    expect(volumeOf(course, 'fill[1]') / (disc(0.3) * 0.04 + disc(0.2) * 0.08 + disc(0.1) * 0.03)).toBeCloseTo(1, 9)
    expect(volumeOf(course, 'fill[2]') / (disc(0.1) * 0.04)).toBeCloseTo(1, 9)
    expect(areaOf(course, 'top') / disc(0.3)).toBeCloseTo(1, 9)
    expect(areaOf(course, 'bottom') / disc(0.3)).toBeCloseTo(1, 9)
    expect(areaOf(course, 'sides') / (Math.PI * (0.3 * 0.1 + 0.2 * 0.08 + 0.1 * 0.07))).toBeCloseTo(1, 9)
  })

  test('a coat follows the steps, and what is poured after it lies on the uppermost tier with its coat', () => {
    const coat = { name: 'coat', material: cream, thickness: 0.004, start_C: 30 }
    const pour = { name: 'pour', material: cream, thickness: 0.01, start_C: 30 }
    const job = layers(0.25)
    const course = quick({
      ...job,
      stages: [
        cool,
        {
          ...cool,
          start: [
            { do: 'coat', layer: coat, faces: ['sides', 'top'] },
            { do: 'pour', layer: pour },
          ],
        },
      ],
    })
    const coated = disc(0.308) * 0.104 + disc(0.208) * 0.08 + disc(0.108) * 0.07
    expect(volumeOf(course, 'coat') / (coated - disc(0.3) * 0.1 - disc(0.2) * 0.08 - disc(0.1) * 0.07)).toBeCloseTo(
      1,
      9,
    )
    expect(volumeOf(course, 'pour') / (disc(0.108) * 0.01)).toBeCloseTo(1, 9)
    expect(areaOf(course, 'top') / disc(0.308)).toBeCloseTo(1, 9)
    expect(course.energyResidual).toBeLessThan(1e-12)
  })

  test('a wider tier on a narrower one has an underside', () => {
    const body = tiersBody([{ diameter: 0.1, height: 0.05 }, { diameter: 0.2 }])
    const course = quick(jobOf(body, cream, 0.12, 20, [stage(body, air(10, 5), 0.2)]))
    expect(volumeOf(course, 'fill[0]') / (disc(0.1) * 0.05 + disc(0.2) * 0.07)).toBeCloseTo(1, 9)
    expect(areaOf(course, 'bottom') / disc(0.2)).toBeCloseTo(1, 9)
  })

  test('hollow ball', () => {
    const body = shellBody({ diameter: 0.2, hollow: 0.12 })
    const course = quick(jobOf(body, cream, null, 20, [stage(body, air(10, 5), 0.2)]))
    expect(volumeOf(course, 'fill[0]') / ((Math.PI / 6) * (0.2 ** 3 - 0.12 ** 3))).toBeCloseTo(1, 9)
    expect(areaOf(course, 'curved') / (Math.PI * 0.2 ** 2)).toBeCloseTo(1, 9)
  })
})

test('depth is counted from the nearest step, not from the box around it', () => {
  const mesh = lastMesh(quick(jobOf(cake, cream, 0.25, 20, [cool])))
  expect(depthOf(mesh, [0.13, 0.05])).toBeCloseTo(0.02, 9)
  expect(depthOf(mesh, [0.12, 0.09])).toBeCloseTo(0.01, 9)
  expect(depthOf(mesh, [0.03, 0.2])).toBeCloseTo(0.02, 9)
})

describe('a shape in its limit is the simpler shape', () => {
  const cooled = (body: Body, thickness: number | null, except = {}): Course =>
    runJourney(jobOf(body, cream, thickness, 70, [stage(body, air(12, 4), 8, except)]), { fidelity: 'standard' })
  /** Largest difference of means and of places, K. */
  const gap = (one: Course, other: Course, places: readonly { x: number; y: number; z: number }[]): number =>
    Math.max(
      ...[1, 3, 6].flatMap((h) => [
        Math.abs(read(one, one.mean_C, h) - read(other, other.mean_C, h)),
        ...places.map((place) => Math.abs(read(one, one.follow(place), h) - read(other, other.follow(place), h))),
      ]),
    )

  test('one tier = round, to round-off', () => {
    const at = [{ x: 0.6, y: 0.4, z: 0.5 }]
    expect(
      gap(cooled(tiersBody([{ diameter: 0.24 }]), 0.12), cooled(roundBody({ diameter: 0.24 }), 0.12), at),
    ).toBeLessThan(1e-9)
  })

  // Other cells where the tiers meet: within the error of both grids.
  test('tiers of one width = round', () => {
    const at = [
      { x: 0.6, y: 0.4, z: 0.5 },
      { x: 0.9, y: 0.8, z: 0.5 },
    ]
    const tiers = tiersBody([{ diameter: 0.24, height: 0.05 }, { diameter: 0.24 }])
    expect(gap(cooled(tiers, 0.12), cooled(roundBody({ diameter: 0.24 }), 0.12), at)).toBeLessThan(0.05)
  })

  test('a hair of an upper tier = the lower one alone', () => {
    const tiers = tiersBody([{ diameter: 0.24, height: 0.12 }, { diameter: 0.12 }])
    const [one, other] = [cooled(tiers, 0.1201), cooled(roundBody({ diameter: 0.24 }), 0.12)]
    for (const h of [1, 3, 6])
      expect(Math.abs(read(one, one.mean_C, h) - read(other, other.mean_C, h))).toBeLessThan(0.1)
  })

  test('a tiny hollow = ball', () => {
    const [shell, ball] = [
      cooled(shellBody({ diameter: 0.2, hollow: 0.002 }), null),
      cooled(ballBody({ diameter: 0.2 }), null),
    ]
    const at = [
      { x: 0.52, y: 0.5, z: 0.5 },
      { x: 0.9, y: 0.5, z: 0.5 },
    ]
    expect(gap(shell, ball, at)).toBeLessThan(0.05)
  })

  // A thin wall is a sheet of its thickness that is open on one side; its curvature is worth its share of the radius.
  test('a thin wide shell = sheet with an insulated side', () => {
    const shell = shellBody({ diameter: 4, hollow: 3.96 })
    const flat = roundBody({ diameter: 0.24 })
    const sheet = cooled(flat, 0.02, { bottom: insulated, sides: insulated })
    const course = cooled(shell, null)
    for (const h of [0.25, 0.5, 1])
      expect(Math.abs(read(course, course.mean_C, h) - read(sheet, sheet.mean_C, h))).toBeLessThan(0.02 * 66)
  })
})

/* Source: Carslaw and Jaeger (1959) section 9.1: steady radial flow; with nothing passing inside there is none at all. */
test('held at its surface, a hollow ball gets as warm throughout', () => {
  const body = shellBody({ diameter: 0.2, hollow: 0.1 })
  const course = runJourney(jobOf(body, cream, null, 70, [stage(body, held(4), 60)]), { fidelity: 'standard' })
  expect(course.mean_C.at(-1)!).toBeCloseTo(4, 3)
  expect(course.t.at(-1)!).toBe(hours(60))
})
