import { describe, expect, test } from 'vitest'
import { steady } from '../../src/core/boundary/profile.ts'
import { ballBody } from '../../src/core/geometry/shapes/ball.ts'
import { barBody } from '../../src/core/geometry/shapes/bar.ts'
import { blockBody } from '../../src/core/geometry/shapes/block.ts'
import { domeBody } from '../../src/core/geometry/shapes/dome.ts'
import { roundBody } from '../../src/core/geometry/shapes/round.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import { troughBody } from '../../src/core/geometry/shapes/trough.ts'
import type { Job } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import { air, cream, everyShape, everywhere, freezingCustard, held, insulated, jobOf, read, stage } from './jobs.ts'

const middle = { x: 0.5, y: 0.5, z: 0.5 }

describe('a shape in its limit is the simpler shape', () => {
  const slab = sheetBody({})
  const stages = (body: typeof slab, except = {}) => [stage(body, air(12, 4), 20, except)]
  const inSlab = runJourney(jobOf(slab, cream, 0.12, 70, stages(slab)), { fidelity: 'standard' })

  test('bar with insulated sides = sheet', () => {
    const body = barBody({ width: 0.2, length: 1 })
    const sides = { left: insulated, right: insulated }
    const course = runJourney(jobOf(body, cream, 0.12, 70, stages(body, sides)), { fidelity: 'standard' })
    // The bar's own grid along its height is the coarser one of two dimensions.
    expect(Math.abs(read(course, course.follow(middle), 10) - read(inSlab, inSlab.follow(middle), 10))).toBeLessThan(
      0.05,
    )
  })

  test('very wide block = sheet in its middle', () => {
    const body = blockBody({ width: 3, length: 3 })
    const course = runJourney(jobOf(body, cream, 0.12, 70, stages(body)), { fidelity: 'standard' })
    expect(Math.abs(read(course, course.follow(middle), 10) - read(inSlab, inSlab.follow(middle), 10))).toBeLessThan(
      0.1,
    )
  })

  test('block of great length = bar in its middle', () => {
    const bar = barBody({ width: 0.2, length: 4 })
    const block = blockBody({ width: 0.2, length: 4 })
    const one = runJourney(jobOf(bar, cream, 0.12, 70, [stage(bar, air(12, 4), 10)]), { fidelity: 'standard' })
    const other = runJourney(jobOf(block, cream, 0.12, 70, [stage(block, air(12, 4), 10)]), { fidelity: 'standard' })
    expect(Math.abs(read(one, one.follow(middle), 6) - read(other, other.follow(middle), 6))).toBeLessThan(0.15)
  })

  test('very wide round = sheet in its middle', () => {
    const body = roundBody({ diameter: 3 })
    const course = runJourney(jobOf(body, cream, 0.12, 70, stages(body)), { fidelity: 'standard' })
    expect(Math.abs(read(course, course.follow(middle), 10) - read(inSlab, inSlab.follow(middle), 10))).toBeLessThan(
      0.1,
    )
  })
})

/* Source: Incropera, DeWitt, Bergman, Lavine, Fundamentals of Heat and Mass Transfer, 6th ed., eq. 5.6 (lumped body). */
describe.each(everyShape)('a small good conductor is lumped: $name', ({ body, height }) => {
  test('exponential within 0.2 % of the initial difference', () => {
    const metal = fixedMaterial({ id: 'metal', title: 'Metal', k: 200, rho: 2700, c: 900 })
    const job = jobOf(body, metal, height, 80, [stage(body, air(10, 20), 2)])
    const course = runJourney(job, { fidelity: 'standard' })
    const { mesh } = course.segments[0]!
    const volume = mesh.volume.reduce((sum, cell) => sum + cell, 0)
    const area = mesh.boundary.reduce((sum, link) => sum + link.area, 0)
    const tau = (2700 * 900 * volume) / (10 * area)
    for (const h of [0.5, 1, 2]) {
      const exact = 20 + 60 * Math.exp((-h * 3600) / tau)
      expect(Math.abs(read(course, course.mean_C, h) - exact)).toBeLessThan(0.002 * 60)
    }
  })
})

/** Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.26, |error| ≤ 1.5e-7. */
function erfc(x: number): number {
  const t = 1 / (1 + 0.3275911 * x)
  return (
    t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) * Math.exp(-x * x)
  )
}

/* Source: Carslaw and Jaeger (1959) section 2.4: half-space suddenly held at another temperature, erfc. */
test('short time: a thick sheet is a half-space', () => {
  const body = sheetBody({})
  const course = runJourney(jobOf(body, cream, 0.3, 20, [stage(body, held(-25), 1)]), { fidelity: 'fine' })
  const alpha = 0.48 / (1050 * 3500)
  for (const depth of [0.004, 0.01, 0.02]) {
    const exact = 20 - 45 * erfc(depth / (2 * Math.sqrt(alpha * 3600)))
    const value = read(course, course.follow({ x: 0.5, y: 1 - depth / 0.3, z: 0.5 }), 1)
    expect(Math.abs(value - exact)).toBeLessThan(0.05)
  }
})

/*
 * Source: Carslaw and Jaeger (1959) section 2.7: face of a half-space under a film, V exp(H² α t) erfc(H √(α t)), H = h/k.
 * Where the rays of a half-round's cells run together is where its open face is watched.
 */
test.each(['half-round', 'dome'])('short time: the flat of a deep %s is a half-space', (kind) => {
  const body = kind === 'dome' ? domeBody({ radius: 0.2, flatUp: true }) : troughBody({ radius: 0.2, length: 2 })
  const course = runJourney(jobOf(body, cream, 0.2, 60, [stage(body, air(10, -20), 1)]), { fidelity: 'standard' })
  const flat = course.follow({ x: 0.5, y: 1, z: 0.5 })
  for (const h of [0.25, 0.5, 1]) {
    const x = (10 / 0.48) * Math.sqrt((0.48 / (1050 * 3500)) * 3600 * h)
    const exact = -20 + 80 * Math.exp(x * x) * erfc(x)
    // As the standard setting is stated.
    expect(Math.abs(read(course, flat, h) - exact), `after ${h} h`).toBeLessThan(0.2)
  }
})

describe('mirror in, mirror out', () => {
  test.each(['bar', 'block', 'round', 'sheet'])('%s upside down', (kind) => {
    const { body, height } = everyShape.find((shape) => shape.name === kind)!
    const top = jobOf(body, freezingCustard, height, 60, [
      stage(body, air(9, 3), 6, { top: air(25, -20), bottom: air(4, 10) }),
    ])
    const bottom = jobOf(body, freezingCustard, height, 60, [
      stage(body, air(9, 3), 6, { bottom: air(25, -20), top: air(4, 10) }),
    ])
    const one = runJourney(top, { fidelity: 'quick' })
    const other = runJourney(bottom, { fidelity: 'quick' })
    for (const y of [0.1, 0.3, 0.6, 0.95]) {
      const a = one.follow({ x: 0.6, y, z: 0.5 }).at(-1)!
      const b = other.follow({ x: 0.6, y: 1 - y, z: 0.5 }).at(-1)!
      expect(Math.abs(a - b)).toBeLessThan(1e-7)
    }
  })

  test('half a bar, found by symmetry, is the whole bar', () => {
    const { body, height } = everyShape.find((shape) => shape.name === 'bar')!
    const whole: Job = jobOf(body, cream, height, 60, [
      // A hair's difference between left and right keeps both halves in the model.
      stage(body, air(12, 4), 6, { left: air(12 + 1e-9, 4) }),
    ])
    const half = jobOf(body, cream, height, 60, [stage(body, air(12, 4), 6)])
    const a = runJourney(whole, { fidelity: 'quick' })
    const b = runJourney(half, { fidelity: 'quick' })
    expect(a.cells).toBeGreaterThan(b.cells)
    expect(Math.abs(a.mean_C.at(-1)! - b.mean_C.at(-1)!)).toBeLessThan(0.01)
    expect(Math.abs(a.heat.at(-1)! / b.heat.at(-1)! - 1)).toBeLessThan(1e-3)
  })
})

test('a film on the surface acts as its resistance in series', () => {
  const body = sheetBody({})
  const wrapped = { kind: 'convective', h: 20, air_C: steady(4), resistances: [{ name: 'board', R: 0.05 }] } as const
  const one = runJourney(jobOf(body, cream, 0.08, 60, [stage(body, wrapped, 5)]), { fidelity: 'quick' })
  const other = runJourney(jobOf(body, cream, 0.08, 60, [stage(body, air(10, 4), 5)]), { fidelity: 'quick' })
  expect(one.mean_C.at(-1)!).toBeCloseTo(other.mean_C.at(-1)!, 9)
})

/* Source: Stefan and Boltzmann's law; Incropera 6th ed., eq. 1.7. Steady state: convected in = radiated out. */
test('radiation to cold walls holds a surface below the air', () => {
  const body = ballBody({ diameter: 0.1 })
  const condition = {
    kind: 'convective',
    h: 5,
    air_C: steady(20),
    resistances: [],
    radiation: { emissivity: 0.95, walls_C: steady(-20) },
  } as const
  const course = runJourney(jobOf(body, cream, null, 20, [stage(body, condition, 200)]), { fidelity: 'standard' })
  const T = course.mean_C.at(-1)!
  const radiated = 0.95 * 5.670374419e-8 * ((T + 273.15) ** 4 - (-20 + 273.15) ** 4)
  expect(Math.abs(5 * (20 - T) - radiated)).toBeLessThan(0.02)
})

test('a stage that ends at a core temperature ends there', () => {
  const body = barBody({ width: 0.2, length: 1 })
  const job = jobOf(body, cream, 0.1, 70, [
    { ...stage(body, air(15, 4), 1), until: { core_C: 10, max: 1e6 } },
    { ...stage(body, air(15, 60), 1), faces: everywhere(body, air(15, 60)), until: { core_C: 40, max: 1e6 } },
  ])
  const course = runJourney(job, { fidelity: 'quick' })
  expect(course.stages.map((span) => span.endedBy)).toEqual(['core', 'core'])
  expect(Math.abs(course.hottest_C[course.stages[0]!.last]! - 10)).toBeLessThan(1e-3)
  expect(Math.abs(course.coldest_C[course.stages[1]!.last]! - 40)).toBeLessThan(1e-3)
})
