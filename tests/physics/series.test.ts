import { describe, expect, it } from 'vitest'
import type { FaceCondition } from '../../src/core/boundary/face.ts'
import { steady } from '../../src/core/boundary/profile.ts'
import type { Body, Place } from '../../src/core/geometry/body.ts'
import { ballBody } from '../../src/core/geometry/shapes/ball.ts'
import { roundBody } from '../../src/core/geometry/shapes/round.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import type { Fidelity, Job } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import { valueAt } from '../../src/core/verification/history.ts'

/*
 * Slab, endless cylinder and sphere, suddenly put from one temperature into air of another, against their exact
 * series. Source: Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. (1959), sections 3.11, 7.7 and 9.4; the
 * series are summed here from their own characteristic equations, nothing is shared with the core.
 */

/** Share of the initial difference, by fidelity: what the program promises for plain conduction. */
const ALLOWED = { standard: 0.002, fine: 0.0003 } as const
const BIOT = [0.1, 0.5, 1, 5, 10, 50]
const FOURIER = [0.02, 0.05, 0.1, 0.2, 0.4, 0.8, 1.6]
/** Slow bodies are still warm later. */
const LATE = { 0.1: [4, 12], 0.5: [4] } as Readonly<Record<number, readonly number[]>>
const PLACES = [0, 0.25, 0.5, 0.75, 1]
const TERMS = 40

const HALF = 0.1
const HOT_C = 80
const AIR_C = 4
const material = fixedMaterial({ id: 'body', title: 'body', k: 0.5, rho: 1000, c: 3500 })
const diffusivity = 0.5 / (1000 * 3500)

function bisect(f: (x: number) => number, low: number, high: number): number {
  let a = low
  let b = high
  const sign = Math.sign(f(a))
  for (let pass = 0; pass < 100; pass++) {
    const middle = (a + b) / 2
    if (Math.sign(f(middle)) === sign) a = middle
    else b = middle
  }
  return (a + b) / 2
}

/** Bessel function of the first kind of whole order, by its integral; the rectangle rule is exact to round-off here. */
function bessel(order: number, x: number): number {
  const points = 240
  let sum = 0
  for (let i = 0; i < points; i++) {
    const angle = (2 * Math.PI * i) / points
    sum += Math.cos(order * angle - x * Math.sin(angle))
  }
  return sum / points
}

/** A body's series: θ(x, Fo) = Σ C f(ζ x) exp(−ζ² Fo). */
interface Series {
  readonly roots: readonly number[]
  readonly factor: (root: number) => number
  readonly shape: (value: number) => number
}

const EDGE = 1e-12
const numbers = Array.from({ length: TERMS }, (_, n) => n)

function slabSeries(Bi: number): Series {
  const f = (z: number) => z * Math.sin(z) - Bi * Math.cos(z)
  return {
    roots: numbers.map((n) => bisect(f, n * Math.PI + EDGE, (n + 0.5) * Math.PI - EDGE)),
    factor: (z) => (4 * Math.sin(z)) / (2 * z + Math.sin(2 * z)),
    shape: Math.cos,
  }
}

function cylinderSeries(Bi: number): Series {
  const f = (z: number) => z * bessel(1, z) - Bi * bessel(0, z)
  const roots: number[] = []
  for (let z = 1e-6; roots.length < TERMS; z += 0.2)
    if (Math.sign(f(z)) !== Math.sign(f(z + 0.2))) roots.push(bisect(f, z, z + 0.2))
  return {
    roots,
    factor: (z) => (2 * bessel(1, z)) / (z * (bessel(0, z) ** 2 + bessel(1, z) ** 2)),
    shape: (value) => bessel(0, value),
  }
}

function sphereSeries(Bi: number): Series {
  const f = (z: number) => (1 - Bi) * Math.sin(z) - z * Math.cos(z)
  return {
    roots: numbers.map((n) => bisect(f, n * Math.PI + (n === 0 ? 1e-6 : EDGE), (n + 1) * Math.PI - EDGE)),
    factor: (z) => (4 * (Math.sin(z) - z * Math.cos(z))) / (2 * z - Math.sin(2 * z)),
    shape: (value) => (value === 0 ? 1 : Math.sin(value) / value),
  }
}

const theta = ({ roots, factor, shape }: Series, x: number, Fo: number): number =>
  roots.reduce((sum, z) => sum + factor(z) * shape(z * x) * Math.exp(-z * z * Fo), 0)

interface Shape {
  readonly name: string
  readonly body: Body
  readonly thickness: number | null
  readonly open: readonly string[]
  readonly series: (Bi: number) => Series
  readonly place: (x: number) => Place
}

const middle: Place = { x: 0.5, y: 0.5, z: 0.5 }
const shapes: readonly Shape[] = [
  {
    name: 'slab',
    body: sheetBody({ area: 1 }),
    thickness: 2 * HALF,
    open: ['top', 'bottom'],
    series: slabSeries,
    place: (x) => ({ ...middle, y: 0.5 + x / 2 }),
  },
  {
    name: 'cylinder',
    body: roundBody({ diameter: 2 * HALF }),
    thickness: 2 * HALF,
    open: ['sides'],
    series: cylinderSeries,
    place: (x) => ({ ...middle, x: 0.5 + x / 2 }),
  },
  {
    name: 'sphere',
    body: ballBody({ diameter: 2 * HALF }),
    thickness: null,
    open: ['curved'],
    series: sphereSeries,
    place: (x) => ({ ...middle, x: 0.5 + x / 2 }),
  },
]

function jobOf(shape: Shape, Bi: number, duration: number): Job {
  const film: FaceCondition = { kind: 'convective', h: (Bi * 0.5) / HALF, air_C: steady(AIR_C), resistances: [] }
  const names = Object.values(shape.body.faces).flat()
  const faces = Object.fromEntries(
    names.map((name) => [name, shape.open.includes(name) ? film : ({ kind: 'insulated' } as const)]),
  )
  return {
    body: shape.body,
    lining: [],
    fill: [{ name: 'fill[0]', material, thickness: shape.thickness, start_C: HOT_C }],
    stages: [{ name: 'cool', start: [], faces, air_C: steady(AIR_C), until: { after: duration, max: duration } }],
    probes: [],
  }
}

function worstError(shape: Shape, Bi: number, fidelity: Fidelity) {
  const numbersOfTime = [...FOURIER, ...(LATE[Bi] ?? [])]
  const seconds = (Fo: number): number => (Fo * HALF * HALF) / diffusivity
  const course = runJourney(jobOf(shape, Bi, seconds(Math.max(...numbersOfTime))), { fidelity })
  const series = shape.series(Bi)
  let worst = { error: 0, where: '' }
  for (const x of PLACES) {
    const history = { t: course.t, value: course.follow(shape.place(x)) }
    for (const Fo of numbersOfTime) {
      const exact = AIR_C + (HOT_C - AIR_C) * theta(series, x, Fo)
      const error = Math.abs(valueAt(history, seconds(Fo)) - exact) / (HOT_C - AIR_C)
      if (!(error <= worst.error)) worst = { error, where: `at ${x} of the way out, Fourier number ${Fo}` }
    }
  }
  return worst
}

describe('the series themselves', () => {
  // First roots and coefficients for Bi 1: Incropera et al., 6th ed., table 5.1 (four decimals).
  it.each([
    ['slab', slabSeries, 0.8603, 1.1191],
    ['cylinder', cylinderSeries, 1.2558, 1.2071],
    ['sphere', sphereSeries, 1.5708, 1.2732],
  ] as const)('%s has the printed first root and coefficient', (_, make, root, coefficient) => {
    const series = make(1)
    expect(series.roots[0]).toBeCloseTo(root, 4)
    expect(series.factor(series.roots[0]!)).toBeCloseTo(coefficient, 3)
  })

  it.each(shapes.map((shape) => [shape.name, shape] as const))('%s starts uniform', (_, shape) => {
    // At Fourier number 0.004 the middle has not yet felt the change.
    expect(theta(shape.series(5), 0, 0.004)).toBeCloseTo(1, 6)
  })
})

describe.each(['standard', 'fine'] as const)('at %s', (fidelity) => {
  for (const shape of shapes) {
    it.each(BIOT)(`${shape.name} of Biot number %d agrees with its series`, (Bi) => {
      const { error, where } = worstError(shape, Bi, fidelity)
      expect(error, `largest error ${where}`).toBeLessThanOrEqual(ALLOWED[fidelity])
    })
  }
})
