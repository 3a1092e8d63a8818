import { describe, expect, test } from 'vitest'
import { forecast } from '../../src/core/forecast.ts'
import type { Body } from '../../src/core/geometry/body.ts'
import type { Layer } from '../../src/core/geometry/layer.ts'
import { ballBody } from '../../src/core/geometry/shapes/ball.ts'
import { barBody } from '../../src/core/geometry/shapes/bar.ts'
import { domeBody } from '../../src/core/geometry/shapes/dome.ts'
import { roundBody } from '../../src/core/geometry/shapes/round.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import { shellBody } from '../../src/core/geometry/shapes/shell.ts'
import { troughBody } from '../../src/core/geometry/shapes/trough.ts'
import type { Course } from '../../src/core/journey/course.ts'
import type { Job } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { airLayer } from '../../src/core/materials/air-layer.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { air, cream, held, insulated, stage } from './jobs.ts'

/* Air within a piece: layers between layers, and hollows. */

/** Light and well conducting, so that all is steady within the hour. */
const PLATE_K = 5
const plate = fixedMaterial({ id: 'plate', title: 'Plate', k: PLATE_K, rho: 500, c: 500 })
const layer = (name: string, material: Layer['material'], thickness: number | null, start_C = 20): Layer => ({
  name,
  material,
  thickness,
  start_C,
})

/** Steady resistance of a layer of air between two plates held a few kelvin apart, m² K/W. */
function resistanceOf(gap: number, below_C: number, above_C: number): number {
  const body = sheetBody({ area: 1 })
  const job: Job = {
    body,
    lining: [],
    fill: [
      layer('fill[0]', plate, 0.01, below_C),
      layer('fill[1]', airLayer, gap),
      layer('fill[2]', plate, 0.01, above_C),
    ],
    stages: [stage(body, held(above_C), 1, { bottom: held(below_C) })],
    probes: [],
  }
  const course = runJourney(job, { fidelity: 'standard' })
  const { t } = course
  const top = course.heatThrough.top!
  const last = t.length - 1
  const q = Math.abs(top[last]! - top[last - 1]!) / (t[last]! - t[last - 1]!)
  return Math.abs(below_C - above_C) / q - 2 * (0.01 / PLATE_K)
}

describe('a layer of air resists as the tables of building say', () => {
  // EN ISO 6946, still air between faces that are no metal, m² K/W; from memory. They are rounded to 0.01.
  test.each([
    [0.005, 0.11],
    [0.01, 0.15],
    [0.015, 0.17],
  ])('%d m, heat downward', (gap, R) => {
    expect(Math.abs(resistanceOf(gap, 8, 12) - R)).toBeLessThan(0.01)
  })

  test('of 25 mm heat passes more easily upward than downward', () => {
    // The same table: 0.16 upward, 0.19 downward.
    const [up, down] = [resistanceOf(0.025, 12, 8), resistanceOf(0.025, 8, 12)]
    expect(Math.abs(up - 0.16)).toBeLessThan(0.02)
    expect(Math.abs(down - 0.19)).toBeLessThan(0.015)
  })
})

const volumeOf = (course: Course, name: string): number => {
  const { mesh } = course.segments[0]!
  const index = mesh.layers.findIndex((one) => one.name === name)
  return mesh.volume.reduce((sum, volume, cell) => sum + (mesh.layerOf[cell] === index ? volume : 0), 0) * mesh.measure
}
const finalMean = ({ mean_C }: Course): number => mean_C[mean_C.length - 1]!

function hollow(body: Body, fill: readonly Layer[], hours = 1): Course {
  const job: Job = {
    body,
    lining: [layer('lining[0]', cream, 0.01, 40)],
    fill,
    stages: [stage(body, air(12, 4), hours)],
    probes: [],
  }
  return runJourney(job, { fidelity: 'standard' })
}

describe('a hollow within linings', () => {
  const cavity = layer('fill[0]', airLayer, null)

  test('a ball lined around nothing is the hollow ball', () => {
    const lined = hollow(ballBody({ diameter: 0.2 }), [cavity])
    const body = shellBody({ diameter: 0.2, hollow: 0.18 })
    const job: Job = {
      body,
      lining: [],
      fill: [layer('fill[0]', cream, null, 40)],
      stages: [stage(body, air(12, 4), 1)],
      probes: [],
    }
    const shell = runJourney(job, { fidelity: 'standard' })
    // Two grids, graded differently, each within 0.3 % of the first difference.
    expect(Math.abs(finalMean(lined) - finalMean(shell))).toBeLessThan(0.003 * 36)
    expect(volumeOf(lined, 'lining[0]')).toBeCloseTo((4 / 3) * Math.PI * (0.1 ** 3 - 0.09 ** 3), 12)
  })

  test.each([
    ['dome', domeBody({ radius: 0.1, flatUp: true }), [cavity, layer('fill[1]', cream, 0.01, 40)]],
    ['half-round', troughBody({ radius: 0.1, length: 0.8 }), [cavity, layer('fill[1]', cream, 0.01, 40)]],
    ['round', roundBody({ diameter: 0.2 }), [layer('fill[0]', airLayer, 0.08), layer('fill[1]', cream, 0.01, 40)]],
    [
      'bar',
      barBody({ width: 0.12, length: 0.8 }),
      [layer('fill[0]', airLayer, 0.06), layer('fill[1]', cream, 0.01, 40)],
    ],
  ] as const)('%s: heat is kept, all walls cool towards the air, and none beyond it', (_, body, fill) => {
    const course = hollow(body, fill)
    expect(course.energyResidual).toBeLessThan(1e-10)
    const { mesh, T_C } = course.segments[course.segments.length - 1]!
    expect(mesh.rooms).toHaveLength(1)
    for (const row of T_C)
      for (const [cell, value] of row.entries())
        if (mesh.layerOf[cell]! >= 0) {
          expect(value).toBeLessThan(40.001)
          expect(value).toBeGreaterThan(3.999)
        }
  })

  test('what nothing leaves through evens out between the walls, whose mean stays', () => {
    const body = roundBody({ diameter: 0.2 })
    const job: Job = {
      body,
      lining: [layer('lining[0]', cream, 0.01, 60)],
      fill: [layer('fill[0]', airLayer, 0.08), layer('fill[1]', cream, 0.01, 0)],
      stages: [stage(body, insulated, 200)],
      probes: [],
    }
    const course = runJourney(job, { fidelity: 'quick' })
    const mean = course.mean_C
    expect(mean[mean.length - 1]).toBeCloseTo(mean[0]!, 6)
    const { mesh, T_C } = course.segments[course.segments.length - 1]!
    const last = T_C[T_C.length - 1]!
    const there = [...last.keys()].filter((cell) => mesh.layerOf[cell]! >= 0).map((cell) => last[cell]!)
    expect(Math.max(...there) - Math.min(...there)).toBeLessThan(0.5)
  })
})

test('an air gap keeps a base warm for longer, and its mass counts for nothing', () => {
  const plan = (gap: boolean) =>
    readPlan(
      JSON.stringify({
        format: 'thickset-plan',
        version: 1,
        title: 'gap',
        startsAt: '2027-03-12T16:00',
        fidelity: 'quick',
        piece: {
          shape: { kind: 'sheet' },
          fill: [
            { material: 'egg-custard', thickness_mm: 40, start_C: 60 },
            ...(gap ? [{ material: 'air', thickness_mm: 8, start_C: 20 }] : []),
            { material: 'sponge-crumb', thickness_mm: 15, start_C: 20 },
          ],
        },
        stages: [{ name: 'Chill', in: { air_C: 3, h_W_m2K: 12 }, until: { after_h: 8 } }],
      }),
    )
  const [closed, open] = [forecast(plan(false)), forecast(plan(true))]
  const last = ({ curves }: typeof open): number => curves.mean![curves.mean!.length - 1]!
  expect(last(open)).toBeGreaterThan(last(closed) + 0.2)
  expect(open.quantities.mass_kg).toBeCloseTo(closed.quantities.mass_kg, 9)
  expect(open.quantities.layers.map(({ name }) => name)).toEqual(['fill[0]', 'fill[2]'])
  expect(open.model.notes.map(({ code }) => code)).toContain('air-within')
})
