import { describe, expect, test } from 'vitest'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { twoPhases } from './baking-jobs.ts'
import { held, hours, insulated, jobOf, read, stage } from './jobs.ts'

/*
 * The front against the exact solution for a half-space whose water boils off at one temperature (Carslaw and Jaeger,
 * Conduction of Heat in Solids, 2nd ed. 1959, section 11.2, Neumann): moist mass at one temperature, wall at another,
 * constants of both phases. The front is read from the water lost. Its way is a few cells only, so it is met within
 * 3 % at fine and a third of a cell at standard; heat through the wall, an integral, within the 1 % stated for it, at
 * fine within half of that.
 */

interface Case {
  readonly name: string
  readonly rho: number
  readonly latent: number
  readonly moist: { readonly k: number; readonly c: number }
  readonly crust: { readonly k: number; readonly c: number }
  readonly start_C: number
  readonly wall_C: number
  readonly depth: number
  /** Seconds and m. */
  readonly front: readonly (readonly [number, number])[]
  /** Seconds, m below the wall, °C. */
  readonly places: readonly (readonly [number, number, number])[]
  /** J/m² through the wall by the last moment. */
  readonly heat: number
}

const cases: readonly Case[] = [
  {
    name: '0.35 kg/kg boils off, crust conducts a quarter',
    rho: 600,
    latent: 789_950,
    moist: { k: 0.32, c: 2700 },
    crust: { k: 0.08, c: 1800 },
    start_C: 25,
    wall_C: 180,
    depth: 0.08,
    front: [
      [600, 0.002570058],
      [1800, 0.004451471],
      [3600, 0.00629533],
    ],
    places: [
      [1800, 0.015, 74.61023],
      [3600, 0.015, 84.72991],
      [3600, 0.03, 61.8613],
    ],
    heat: 7_410_474,
  },
  {
    name: '0.20 kg/kg boils off, crust conducts a third',
    rho: 700,
    latent: 451_400,
    moist: { k: 0.3, c: 2700 },
    crust: { k: 0.1, c: 1900 },
    start_C: 30,
    wall_C: 150,
    depth: 0.1,
    front: [
      [1800, 0.004185438],
      [5400, 0.007249391],
    ],
    places: [
      [1800, 0.015, 73.11618],
      [5400, 0.015, 88.30339],
      [5400, 0.03, 68.10663],
    ],
    heat: 7_529_334,
  },
]

describe.each(cases)('$name', (one) => {
  const body = sheetBody({})
  const end = one.front.at(-1)![0]
  const job = jobOf(body, twoPhases(one), one.depth, one.start_C, [
    stage(body, held(one.wall_C), end / 3600, { bottom: insulated }),
  ])
  describe.each(['standard', 'fine'] as const)('%s', (fidelity) => {
    const course = runJourney(job, { fidelity })
    const perWay = (one.rho * one.latent) / 2.257e6

    test('the front is where the exact one is', () => {
      // Widest cell at the wall: 2.6 mm at standard.
      for (const [t, way] of one.front) {
        const found = read(course, course.waterLost, t / 3600) / perWay
        expect(Math.abs(found - way), `after ${t} s`).toBeLessThan(fidelity === 'fine' ? 0.03 * way : 0.8e-3)
      }
    })
    test('places ahead of it', () => {
      for (const [t, x, T_C] of one.places) {
        const found = read(course, course.follow({ x: 0.5, y: 1 - x / one.depth, z: 0.5 }), t / 3600)
        // The case's own tolerance is 0.5 K; three times that where a cell is wider than the front's way.
        expect(Math.abs(found - T_C), `${x} m after ${t} s`).toBeLessThan(fidelity === 'fine' ? 0.5 : 1.5)
      }
    })
    test('heat through the wall', () => {
      const within = fidelity === 'fine' ? 0.005 : 0.01
      expect(Math.abs(course.heatThrough.top!.at(-1)! / one.heat - 1)).toBeLessThan(within)
    })
    test('what entered is what is stored and what vapour took', () => {
      expect(course.energyResidual).toBeLessThan(1e-12)
      expect(course.heat.at(-1)! + course.vapourHeat.at(-1)!).toBeCloseTo(course.heatThrough.top!.at(-1)!, 2)
    })
  })
})

test('the surface passes straight through while the inside waits', () => {
  // Zanoni and others 1994 (abstract) and loaf-tin measurements: no plateau at the surface.
  const body = sheetBody({})
  const job = jobOf(body, twoPhases(cases[0]!), 0.04, 25, [
    stage(body, { kind: 'convective', h: 25, air_C: held200(), resistances: [] }, 1.5, { bottom: insulated }),
  ])
  const course = runJourney(job, { fidelity: 'standard' })
  const t = Array.from(course.t)
  const within = (values: ArrayLike<number>): number =>
    t.slice(1).reduce((sum, at, i) => sum + (Math.abs(values[i + 1]! - 100) < 1.5 ? at - t[i]! : 0), 0)
  const cell = course.segments[0]!.T_C.map((T_C) => T_C[T_C.length - 3]!)
  expect(within(cell)).toBeGreaterThan(hours(0.15))
  expect(within(course.surface_C)).toBeLessThan(hours(0.03))
})

function held200() {
  return { at: () => 200, breaks: [], curved: false, range: [200, 200] as const }
}
