import { describe, expect, test } from 'vitest'
import type { Body } from '../../src/core/geometry/body.ts'
import type { Insert, Layer } from '../../src/core/geometry/layer.ts'
import { ballBody } from '../../src/core/geometry/shapes/ball.ts'
import { blockBody } from '../../src/core/geometry/shapes/block.ts'
import { domeBody } from '../../src/core/geometry/shapes/dome.ts'
import { roundBody } from '../../src/core/geometry/shapes/round.ts'
import { tiersBody } from '../../src/core/geometry/shapes/tiers.ts'
import { troughBody } from '../../src/core/geometry/shapes/trough.ts'
import type { Course } from '../../src/core/journey/course.ts'
import type { Job } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import { air, cream, freezingCustard, read, stage } from './jobs.ts'

/* A core within a fill. Volumes of boxes, cylinders, balls and their segments: any handbook, from memory. */

const core = fixedMaterial({ id: 'core', title: 'Core', k: 0.2, rho: 700, c: 2500 })
const layer = (name: string, material: Layer['material'], thickness: number | null, start_C = 70): Layer => ({
  name,
  material,
  thickness,
  start_C,
})
const insert = (margins: Insert['margins'], within = 0, material = core, start_C = -10): Insert => ({
  layer: layer('core', material, null, start_C),
  within,
  margins,
})
const jobWith = (
  body: Body,
  fill: readonly Layer[],
  inserts: readonly Insert[],
  lining: readonly Layer[] = [],
): Job => ({
  body,
  lining,
  fill,
  inserts,
  stages: [stage(body, air(12, 4), 8)],
  probes: [],
})
const quick = (job: Job): Course => runJourney(job, { fidelity: 'quick' })
const volumeOf = (course: Course, name: string): number => {
  const { mesh } = course.segments[0]!
  const index = mesh.layers.findIndex((one) => one.name === name)
  return mesh.volume.reduce((sum, volume, cell) => sum + (mesh.layerOf[cell] === index ? volume : 0), 0) * mesh.measure
}

describe('an insert has its exact volume, and the fill what it leaves', () => {
  const cases: readonly [name: string, body: Body, depth: number | null, at: Insert, own: number, all: number][] = [
    [
      'block, nearer to one side',
      blockBody({ width: 0.2, length: 0.3 }),
      0.1,
      insert({ left: 0.02, right: 0.05, front: 0.04, back: 0.04, bottom: 0.03, top: 0.01 }),
      0.13 * 0.22 * 0.06,
      0.2 * 0.3 * 0.1,
    ],
    [
      'round',
      roundBody({ diameter: 0.24 }),
      0.12,
      insert({ sides: 0.04, bottom: 0.03, top: 0.05 }),
      Math.PI * 0.08 ** 2 * 0.04,
      Math.PI * 0.12 ** 2 * 0.12,
    ],
    [
      'ball',
      ballBody({ diameter: 0.2 }),
      null,
      insert({ curved: 0.03 }),
      (4 / 3) * Math.PI * 0.07 ** 3,
      (4 / 3) * Math.PI * 0.001,
    ],
    [
      'lower of two tiers',
      tiersBody([{ diameter: 0.3, height: 0.1 }, { diameter: 0.2 }]),
      0.1,
      insert({ sides: 0.05, bottom: 0.02, top: 0.02 }),
      Math.PI * 0.1 ** 2 * 0.06,
      Math.PI * 0.15 ** 2 * 0.1,
    ],
  ]
  test.each(cases)('%s', (_name, body, depth, at, own, all) => {
    const above = body.tiers === undefined ? [] : [layer('above', cream, 0.08)]
    const course = quick(jobWith(body, [layer('fill', cream, depth), ...above], [at]))
    expect(volumeOf(course, 'core') / own).toBeCloseTo(1, 9)
    expect(volumeOf(course, 'fill') / (all - own)).toBeCloseTo(1, 9)
    expect(course.energyResidual).toBeLessThan(1e-12)
  })

  test('half-rounds: the upper side is level, the other follows the arc', () => {
    const bar = quick(
      jobWith(troughBody({ radius: 0.15, length: 0.8 }), [layer('fill', cream, null)], [insert({ curved: 0.04 })]),
    )
    expect(volumeOf(bar, 'core') / ((0.8 * Math.PI * 0.11 ** 2) / 2)).toBeCloseTo(1, 9)
    // Not filled to the middle of the arc, the rays are drawn in towards the middle of the insert's upper side.
    const deep = quick(
      jobWith(domeBody({ radius: 0.15 }), [layer('fill', cream, null)], [insert({ bottom: 0.05, curved: 0.03 })]),
    )
    const cap = (Math.PI * 0.1 ** 2 * (3 * 0.15 - 0.1)) / 3
    expect(volumeOf(deep, 'core') / (cap * 0.8 ** 3)).toBeCloseTo(1, 9)
    expect(volumeOf(deep, 'fill') / ((2 / 3) * Math.PI * 0.15 ** 3 - cap * 0.8 ** 3)).toBeCloseTo(1, 9)
    expect(deep.energyResidual).toBeLessThan(1e-12)
  })
})

describe('in its limits an insert is what one knows', () => {
  const places = [
    { x: 0.5, y: 0.5, z: 0.5 },
    { x: 0.8, y: 0.4, z: 0.5 },
  ]
  const gap = (one: Job, other: Job, fidelity: 'quick' | 'standard' = 'quick'): number => {
    const [a, b] = [runJourney(one, { fidelity }), runJourney(other, { fidelity })]
    return Math.max(
      ...[1, 3, 7].flatMap((h) => [
        Math.abs(read(a, a.mean_C, h) - read(b, b.mean_C, h)),
        ...places.map((place) => Math.abs(read(a, a.follow(place), h) - read(b, b.follow(place), h))),
      ]),
    )
  }

  test('with a margin where a lining lies = that lining, to round-off', () => {
    const ball = ballBody({ diameter: 0.2 })
    const lined = [layer('lining', freezingCustard, 0.03)]
    expect(
      gap(
        jobWith(ball, [layer('fill', freezingCustard, null)], [insert({ curved: 0.03 })]),
        jobWith(ball, [layer('core', core, null, -10)], [], lined),
      ),
    ).toBeLessThan(1e-9)
    const round = roundBody({ diameter: 0.24 })
    expect(
      gap(
        jobWith(round, [layer('fill', freezingCustard, 0.12)], [insert({ sides: 0.03, bottom: 0.03 })]),
        jobWith(round, [layer('core', core, 0.09, -10)], [], lined),
      ),
    ).toBeLessThan(1e-9)
  })

  test('under a level cover = two layers, to round-off', () => {
    const bar = troughBody({ radius: 0.15, length: 0.8 })
    expect(
      gap(
        jobWith(bar, [layer('fill', cream, null)], [insert({ top: 0.05 })]),
        jobWith(bar, [layer('core', core, null, -10), layer('fill', cream, 0.05)], []),
      ),
    ).toBeLessThan(1e-9)
  })

  test('all of the fill = that fill, to round-off', () => {
    const block = blockBody({ width: 0.2, length: 0.3 })
    expect(
      gap(
        jobWith(block, [layer('fill', cream, 0.1)], [insert({})]),
        jobWith(block, [layer('core', core, 0.1, -10)], []),
      ),
    ).toBeLessThan(1e-9)
  })

  // Its borders make other cells: the same within the error of both grids, 0.3 % of the difference.
  test('of the same mass and temperature = no insert', () => {
    const block = blockBody({ width: 0.2, length: 0.3 })
    const same = insert({ left: 0.04, right: 0.04, front: 0.06, back: 0.06, bottom: 0.02, top: 0.03 }, 0, cream, 70)
    const fill = [layer('fill', cream, 0.1)]
    expect(gap(jobWith(block, fill, [same]), jobWith(block, fill, []), 'standard')).toBeLessThan(0.003 * 66)
  })
})
