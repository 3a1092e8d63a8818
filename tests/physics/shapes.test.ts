import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import type { Body } from '../../src/core/geometry/body.ts'
import { cellIndices } from '../../src/core/geometry/mesh.ts'
import { ballBody } from '../../src/core/geometry/shapes/ball.ts'
import { domeBody } from '../../src/core/geometry/shapes/dome.ts'
import { logBody, wholeLog } from '../../src/core/geometry/shapes/log.ts'
import { ringBody } from '../../src/core/geometry/shapes/ring.ts'
import { roundBody } from '../../src/core/geometry/shapes/round.ts'
import { stirredBody } from '../../src/core/geometry/shapes/stirred.ts'
import { troughBody, wholeTrough } from '../../src/core/geometry/shapes/trough.ts'
import type { Course } from '../../src/core/journey/course.ts'
import type { Job } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import { createRunner } from '../../src/core/verification/case-run.ts'
import { type Case, readCases } from '../../src/core/verification/case-schema.ts'
import { computeOutput } from '../../src/core/verification/outputs.ts'
import { air, cream, everywhere, freezingCustard, insulated, jobOf, read, stage } from './jobs.ts'

const here = (path: string): string => join(import.meta.dirname, path)
const middle = { x: 0.5, y: 0.5, z: 0.5 }

/* The cases carry their sources: series of Carslaw and Jaeger (1959), and independent spectral elements. */
const cases = readCases(
  JSON.parse(readFileSync(here('../../shared/reference/validation-cases.json'), 'utf8')).cases,
).cases

/** Initial temperature less that of what is outside, K: the largest difference of a case. */
function differenceOf(entry: Case): number {
  const start = entry.initial.T_C as number
  const outside = Object.values(entry.boundary).flatMap((face) =>
    typeof face === 'object' && 'T_C' in face ? [Number(face.T_C)] : [],
  )
  return Math.max(...outside.map((T_C) => Math.abs(start - T_C)))
}

describe('temperatures within 0.3 % of the initial difference at the standard setting', () => {
  test.each([
    ['A11-fixed', 'half-disc trough'],
    ['A11-conv-equal', 'half-disc trough'],
    ['A11-arc-bath', 'half-disc trough, two surroundings'],
    ['A11-length', 'trough with its ends'],
    ['A4-drum', 'finite cylinder'],
    ['A4-box-cake', 'box'],
    ['A4-giant', 'box'],
    ['A4-bar', 'bar'],
  ])('%s: %s', (id) => {
    const entry = cases.find((one) => one.id === id)!
    const run = createRunner(entry, 'standard', {})
    const allowed = 0.003 * differenceOf(entry)
    let checked = 0
    for (const output of entry.outputs) {
      if (output.quantity !== 'temperature' && output.quantity !== 'mean_temperature') continue
      const { value } = computeOutput(entry, output, run)
      expect(Math.abs((value as number) - (output.value as number)), JSON.stringify(output)).toBeLessThan(allowed)
      checked++
    }
    expect(checked).toBeGreaterThan(10)
  })

  test('A8-cyl-shell: hollow cylinder of two layers', () => {
    const entry = cases.find((one) => one.id === 'A8-cyl-shell')!
    const run = createRunner(entry, 'standard', {})
    for (const output of entry.outputs) {
      const { value } = computeOutput(entry, output, run)
      expect(Math.abs((value as number) / (output.value as number) - 1)).toBeLessThan(3e-4)
    }
  })

  test('A15: trough freezing over a range, times within 1 %', () => {
    const entry = cases.find((one) => one.id === 'A15-trough-custard')!
    const run = createRunner(entry, 'standard', {})
    for (const output of entry.outputs) {
      const { value } = computeOutput(entry, output, run)
      const error = Math.abs((value as number) - (output.value as number))
      if (output.unit === 's') expect(error / (output.value as number)).toBeLessThan(0.01)
      else expect(error).toBeLessThan(0.003)
    }
  })
})

interface LayeredCase {
  readonly name: string
  readonly what: string
  readonly shape: 'trough' | 'dome'
  readonly points_m: readonly (readonly [number, number])[]
  readonly values: readonly { readonly t_s: number; readonly mean_C: number; readonly points_C: readonly number[] }[]
}

/* Layers of a half-round mould; how the reference was made stands in the file. */
describe('layered half-round sections against an independent program', () => {
  const reference = JSON.parse(readFileSync(here('half-round-reference.json'), 'utf8'))
  const material = Object.fromEntries(
    Object.entries(reference.materials as Record<string, { k_W_mK: number; rho_kg_m3: number; c_J_kgK: number }>).map(
      ([id, { k_W_mK: k, rho_kg_m3: rho, c_J_kgK: c }]) => [id, fixedMaterial({ id, title: id, k, rho, c })],
    ),
  )
  const layer = (name: string, id: string, thickness: number | null, start_C: number) => ({
    name,
    material: material[id]!,
    thickness,
    start_C,
  })
  const pieces: Record<string, Pick<Job, 'lining' | 'fill'>> = {
    plain: { lining: [], fill: [layer('fill[0]', 'cream', null, 80)] },
    lid: { lining: [], fill: [layer('fill[0]', 'cream', null, 80), layer('fill[1]', 'sponge', 0.009, 20)] },
    three: {
      lining: [],
      fill: [
        layer('fill[0]', 'cream', 0.05, 80),
        layer('fill[1]', 'sponge', 0.05, 20),
        layer('fill[2]', 'mousse', 0.05, 60),
      ],
    },
    half: { lining: [], fill: [layer('fill[0]', 'cream', 0.09, 80)] },
    shallow: { lining: [], fill: [layer('fill[0]', 'cream', 0.05, 80)] },
    'pour of 30 mm': { lining: [], fill: [layer('fill[0]', 'cream', 0.03, 80)] },
    'pour of 15 mm': { lining: [], fill: [layer('fill[0]', 'cream', 0.015, 80)] },
    lined: {
      lining: [layer('lining[0]', 'sponge', 0.009, 20)],
      fill: [layer('fill[0]', 'cream', null, 80), layer('fill[1]', 'sponge', 0.009, 20)],
    },
  }
  /** What the forecast says of levels that are shallow, and a thousandth for everything else. */
  const allowedShare = (body: Body, { lining, fill }: Pick<Job, 'lining' | 'fill'>): number =>
    0.001 +
    body.fit!(
      lining.reduce((sum, { thickness }) => sum + thickness!, 0),
      fill.map(({ thickness }) => thickness),
    ).error

  test.each((reference.cases as LayeredCase[]).map((one) => [`${one.name} ${one.shape}: ${one.what}`, one] as const))(
    '%s',
    (_, { name, shape, points_m, values }) => {
      const body = shape === 'dome' ? domeBody({ radius: 0.15, flatUp: true }) : troughBody({ radius: 0.15, length: 1 })
      const course = runJourney(
        {
          body,
          ...pieces[name]!,
          probes: [],
          stages: [{ ...stage(body, air(12, 4), 12, { top: air(10, 4) }) }],
        },
        { fidelity: 'standard' },
      )
      const { low, high } = course.segments[0]!.mesh.reference.bounds
      const curves = points_m.map(([x, y]) =>
        course.follow({ x: (x - low[0]) / (high[0] - low[0]), y: (y - low[1]) / (high[1] - low[1]), z: 0.5 }),
      )
      const most = 76 * allowedShare(body, pieces[name]!)
      for (const { t_s, mean_C, points_C } of values) {
        expect(Math.abs(read(course, course.mean_C, t_s / 3600) - mean_C)).toBeLessThan(most)
        for (const [index, T_C] of points_C.entries())
          expect(Math.abs(read(course, curves[index]!, t_s / 3600) - T_C), `point ${index} at ${t_s} s`).toBeLessThan(
            most,
          )
      }
      expect(course.energyResidual).toBeLessThan(1e-8)
    },
  )
})

const volumeOf = (course: Course): number => {
  const { mesh } = course.segments[0]!
  return mesh.volume.reduce((sum, volume) => sum + volume, 0) * mesh.measure
}
const areaOf = (course: Course, face: string): number => {
  const { mesh } = course.segments[0]!
  return mesh.boundary.reduce((sum, link) => sum + (link.face === face ? link.area : 0), 0) * mesh.measure
}
const once = (body: Body, thickness: number | null): Course =>
  runJourney(jobOf(body, cream, thickness, 20, [stage(body, air(10, 5), 0.1)]), { fidelity: 'quick' })

/* Formulas of the solids: any handbook of mathematics, from memory. */
describe('volumes and faces are those of the solid, however coarse the grid', () => {
  const R = 0.15
  const segment = (depth: number): number =>
    R * R * Math.acos((R - depth) / R) - (R - depth) * Math.sqrt(2 * R * depth - depth * depth)
  const cap = (depth: number): number => (Math.PI * depth * depth * (3 * R - depth)) / 3
  const chord = (depth: number): number => 2 * Math.sqrt(2 * R * depth - depth * depth)

  test.each([0.03, 0.06, 0.1, 0.15])('trough filled to %f m', (depth) => {
    const course = once(troughBody({ radius: R, length: 0.8 }), depth)
    expect(volumeOf(course) / (0.8 * segment(depth))).toBeCloseTo(1, 9)
    expect(areaOf(course, 'top') / (0.8 * chord(depth))).toBeCloseTo(1, 9)
    expect(areaOf(course, 'curved') / (0.8 * 2 * R * Math.acos((R - depth) / R))).toBeCloseTo(1, 9)
  })

  test.each([0.03, 0.06, 0.1, 0.15])('bowl filled to %f m', (depth) => {
    const course = once(domeBody({ radius: R, flatUp: true }), depth)
    expect(volumeOf(course) / cap(depth)).toBeCloseTo(1, 9)
    expect(areaOf(course, 'top') / ((Math.PI * chord(depth) ** 2) / 4)).toBeCloseTo(1, 9)
    expect(areaOf(course, 'curved') / (2 * Math.PI * R * depth)).toBeCloseTo(1, 9)
  })

  test('trough with its ends, log, ring, vessel', () => {
    const half = (Math.PI / 2) * R * R
    const trough = once(wholeTrough({ radius: R, length: 0.5 }), null)
    expect(volumeOf(trough) / (half * 0.5)).toBeCloseTo(1, 9)
    expect(areaOf(trough, 'back') / (2 * half)).toBeCloseTo(1, 9)
    const log = once(wholeLog({ diameter: 2 * R, length: 0.5 }), null)
    expect(volumeOf(log) / (half * 2 * 0.5)).toBeCloseTo(1, 9)
    expect(areaOf(log, 'back') / (2 * half * 2)).toBeCloseTo(1, 9)
    const ring = once(ringBody({ outer: 0.3, inner: 0.1 }), 0.12)
    expect(volumeOf(ring) / (Math.PI * (0.15 ** 2 - 0.05 ** 2) * 0.12)).toBeCloseTo(1, 9)
    expect(areaOf(ring, 'inner') / (2 * Math.PI * 0.05 * 0.12)).toBeCloseTo(1, 9)
    const vessel = once(stirredBody({ volume: 0.02 }), null)
    expect(volumeOf(vessel)).toBeCloseTo(0.02, 12)
    expect(areaOf(vessel, 'sides') / areaOf(vessel, 'top')).toBeCloseTo(4, 9)
  })
})

describe('a shape in its limit is the simpler shape', () => {
  const places = [middle, { x: 0.8, y: 0.5, z: 0.5 }]
  const gap = (one: Course, other: Course, of: typeof places, ofOther: typeof places): number => {
    let largest = Math.abs(read(one, one.mean_C, 6) - read(other, other.mean_C, 6))
    for (const [index, place] of of.entries()) {
      const [a, b] = [one.follow(place), other.follow(ofOther[index]!)]
      for (const h of [1, 3, 6]) largest = Math.max(largest, Math.abs(read(one, a, h) - read(other, b, h)))
    }
    return largest
  }
  const cooled = (body: Body, thickness: number | null, except = {}, fidelity: 'standard' | 'fine' = 'standard') =>
    runJourney(jobOf(body, cream, thickness, 70, [stage(body, air(12, 4), 8, except)]), { fidelity })

  test('ring with a tiny hole = round', () => {
    const ring = cooled(ringBody({ outer: 0.24, inner: 0.0006 }), 0.12, { inner: insulated })
    const round = cooled(roundBody({ diameter: 0.24 }), 0.12)
    const at = [
      { x: 0.51, y: 0.5, z: 0.5 },
      { x: 0.9, y: 0.4, z: 0.5 },
    ]
    expect(gap(ring, round, at, at)).toBeLessThan(0.05)
  })

  test('trough with an insulated flat = half of a log', () => {
    const trough = cooled(troughBody({ radius: 0.12, length: 1 }), null, { top: insulated }, 'fine')
    const log = cooled(logBody({ diameter: 0.24, length: 1 }), null, {}, 'fine')
    const inTrough = [
      { x: 0.5, y: 1, z: 0.5 },
      { x: 0.5, y: 0.4, z: 0.5 },
      { x: 0.8, y: 0.5, z: 0.5 },
    ]
    const inLog = inTrough.map(({ x, y, z }) => ({ x, y: y / 2, z }))
    expect(gap(trough, log, inTrough, inLog)).toBeLessThan(0.02)
  })

  test('dome on an insulated flat = half of a ball', () => {
    const dome = cooled(domeBody({ radius: 0.1 }), null, { bottom: insulated }, 'fine')
    const ball = cooled(ballBody({ diameter: 0.2 }), null, {}, 'fine')
    const inDome = [
      { x: 0.5, y: 0, z: 0.5 },
      { x: 0.5, y: 0.6, z: 0.5 },
      { x: 0.8, y: 0.5, z: 0.5 },
    ]
    const inBall = inDome.map(({ x, y, z }) => ({ x, y: 0.5 + y / 2, z }))
    expect(gap(dome, ball, inDome, inBall)).toBeLessThan(0.02)
  })

  test('long log and long trough with their ends = without, in the middle', () => {
    const at = [{ x: 0.7, y: 0.5, z: 0.5 }]
    const log = { diameter: 0.2, length: 3 }
    expect(gap(cooled(wholeLog(log), null), cooled(logBody(log), null), at, at)).toBeLessThan(1.5)
    const inner = (body: Body): Float64Array => cooled(body, null).follow(at[0]!)
    const [whole, endless] = [inner(wholeLog(log)), inner(logBody(log))]
    expect(Math.abs(whole.at(-1)! - endless.at(-1)!)).toBeLessThan(0.05)
  })

  test('a dome the other way up is the same dome', () => {
    const up = cooled(domeBody({ radius: 0.1, flatUp: true }), null, { top: air(25, -10) })
    const down = cooled(domeBody({ radius: 0.1 }), null, { bottom: air(25, -10) })
    const [a, b] = [up.follow({ x: 0.6, y: 0.7, z: 0.5 }), down.follow({ x: 0.6, y: 0.3, z: 0.5 })]
    expect(Math.abs(a.at(-1)! - b.at(-1)!)).toBeLessThan(1e-9)
  })
})

/* Source: Incropera, DeWitt, Bergman, Lavine, Fundamentals of Heat and Mass Transfer, 6th ed., eq. 5.6 and 5.25. */
describe('a stirred vessel has one temperature', () => {
  const body = stirredBody({ volume: 0.01, diameter: 0.25 })
  const [rho, c] = [1050, 3500]
  const height = 0.01 / ((Math.PI / 4) * 0.25 ** 2)
  const area = 2 * (Math.PI / 4) * 0.25 ** 2 + Math.PI * 0.25 * height
  const tau = (rho * c * 0.01) / (15 * area)

  test('cooling is exponential', () => {
    const course = runJourney(jobOf(body, cream, null, 85, [stage(body, air(15, 20), 6)]), { fidelity: 'standard' })
    for (const h of [0.5, 2, 5])
      expect(Math.abs(read(course, course.mean_C, h) - (20 + 65 * Math.exp((-h * 3600) / tau)))).toBeLessThan(0.02)
    expect(Math.abs(course.hottest_C.at(-1)! - course.coldest_C.at(-1)!)).toBeLessThan(1e-3)
  })

  test('a burner heats it towards where loss and power are equal', () => {
    const power = 900
    const heated = { ...stage(body, air(15, 20), 3), source: power / 0.01 }
    const course = runJourney(jobOf(body, cream, null, 5, [heated]), { fidelity: 'standard' })
    const rest = 20 + power / (15 * area)
    for (const h of [0.5, 1, 3])
      expect(Math.abs(read(course, course.mean_C, h) - (rest + (5 - rest) * Math.exp((-h * 3600) / tau)))).toBeLessThan(
        0.05,
      )
    expect(course.energyResidual).toBeLessThan(1e-10)
  })
})

test('cells joined near the pole keep heat to round-off and change the course by less than 0.2 %', () => {
  const body = troughBody({ radius: 0.15, length: 1 })
  const course = runJourney(
    jobOf(body, freezingCustard, null, 20, [stage(body, air(12, -20), 20, { top: air(8, -20) })]),
    { fidelity: 'standard' },
  )
  const { mesh } = course.segments[0]!
  expect(mesh.joined.length).toBeGreaterThan(3)
  expect(course.energyResidual).toBeLessThan(1e-12)
  for (const cells of mesh.joined) {
    const rings = new Set(cells.map((cell) => cellIndices(mesh.n, cell)[0]))
    expect(rings.size).toBe(1)
    const T_C = course.segments[0]!.T_C.at(-1)!
    for (const cell of cells) expect(T_C[cell]).toBeCloseTo(T_C[cells[0]!]!, 10)
  }
})

test('every face of every new shape is in its list of names', () => {
  for (const body of [
    wholeTrough({ radius: 0.1, length: 1 }),
    domeBody({ radius: 0.1 }),
    ringBody({ outer: 0.2, inner: 0.1 }),
  ]) {
    const named = new Set(Object.values(body.faces).flat())
    for (const face of Object.keys(everywhere(body, insulated))) expect(named.has(face)).toBe(true)
  }
})
