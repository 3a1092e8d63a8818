import { describe, expect, test } from 'vitest'
import { cellsThere } from '../../src/core/geometry/mesh.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import { runOnGrid } from '../../src/core/journey/grid-journey.ts'
import type { Job } from '../../src/core/journey/job.ts'
import { computeJourney, runJourney } from '../../src/core/journey/journey.ts'
import { resolutions } from '../../src/core/journey/resolution.ts'
import { getMaterial } from '../../src/core/materials/index.ts'
import { oven, publishedBread, stateAt } from './baking-jobs.ts'
import { air, cream, everyShape, held, hours, jobOf, passes, read, stage } from './jobs.ts'

/* A batter in the oven: what must hold whatever its properties. */

const sponge = getMaterial('sponge-batter')
const body = sheetBody({})
const sheet = (depth: number, h: number): Job =>
  jobOf(body, sponge, depth, 22, [stage(body, oven(7.3, 180), h, { top: oven(3.9, 180) })])

describe('a hand-high sheet of sponge batter in a 180 °C oven', () => {
  const course = runJourney(sheet(0.12, 8), { fidelity: 'standard' })
  const core = course.follow({ x: 0.5, y: 0.5, z: 0.5 })
  const { T_C } = course.segments[0]!
  const cells = T_C[0]!.length

  test('heat: what entered is stored or left with the vapour', () => {
    expect(course.energyResidual).toBeLessThan(1e-12)
  })
  test('the core slows towards the boiling point and never passes it while there is water', () => {
    const boils = sponge.baking!.boils_C
    for (const value of core) expect(value).toBeLessThan(boils + 0.01)
    // Below 100 °C as long as it bakes: half of the rise from 93 to 100 °C takes longer than all from 60 to 80 °C.
    expect(passes(course, core, 99) - passes(course, core, 93)).toBeGreaterThan(
      passes(course, core, 80) - passes(course, core, 60),
    )
  })
  test('crust gets hotter than 100 °C, by far', () => {
    expect(read(course, course.surface_C, 1)).toBeGreaterThan(130)
    expect(read(course, course.surface_C, 4)).toBeGreaterThan(150)
  })
  test('the front moves inward, cell by cell, and no dry cell gets moist again', () => {
    let before = stateAt(course, 'dried', 0)
    const through = new Float64Array(cells).fill(Number.POSITIVE_INFINITY)
    for (let sample = 0; sample < course.t.length; sample++) {
      const dried = stateAt(course, 'dried', sample)
      for (let cell = 0; cell < cells; cell++) {
        expect(dried[cell]).toBeGreaterThanOrEqual(before[cell]!)
        expect(dried[cell]).toBeLessThanOrEqual(1)
        if (dried[cell] === 1) through[cell] = Math.min(through[cell]!, course.t[sample]!)
      }
      before = dried
    }
    const middle = cells / 2
    for (let cell = 1; cell < middle; cell++) expect(through[cell]).toBeGreaterThanOrEqual(through[cell - 1]!)
    for (let cell = cells - 2; cell >= middle; cell--) expect(through[cell]).toBeGreaterThanOrEqual(through[cell + 1]!)
    expect(through[0]).toBeLessThan(hours(2))
  })
  test('it sets from the outside inward, at its own temperatures', () => {
    const at = (h: number): Float64Array =>
      stateAt(
        course,
        'set',
        course.t.findIndex((t) => t >= hours(h)),
      )
    expect(at(1)[0]).toBeGreaterThan(0.95)
    expect(at(1)[cells / 2]).toBeLessThan(0.01)
    for (const value of at(8)) expect(value).toBeGreaterThan(0.99)
  })
  test('water lost: the dried share of what boils out, and its heat', () => {
    const dried = stateAt(course, 'dried', course.t.length - 1)
    const { mesh } = course.segments[0]!
    const kg = dried.reduce((sum, share, cell) => sum + share * mesh.volume[cell]!, 0) * 500 * sponge.baking!.boilsOut
    // Cells are those of the fine grid, the curve is joined from two.
    expect(Math.abs(course.waterLost.at(-1)! / kg - 1)).toBeLessThan(0.01)
    // Steam at 101 °C carries 2.68 MJ/kg from liquid at 0 °C (IAPWS); a cell not yet through has not given up all.
    const perKg = course.vapourHeat.at(-1)! / course.waterLost.at(-1)!
    expect(perKg).toBeGreaterThan(2.5e6)
    expect(perKg).toBeLessThan(2.69e6)
  })
  test('it rises to what its bubbles hold, and stays', () => {
    const height = course.height!
    expect(height[0]).toBeCloseTo(0.12, 9)
    // The rim sets before it has risen all the way.
    expect(height.at(-1)! / 0.12).toBeGreaterThan(1.38)
    expect(height.at(-1)! / 0.12).toBeLessThan(1.4)
    for (let i = 1; i < height.length; i++) expect(height[i]).toBeGreaterThan(height[i - 1]! - 2e-4)
  })
})

describe.each([
  ['sheet of sponge, 60 mm', sheet(0.06, 1.3)],
  ['sheet of sponge, 120 mm', sheet(0.12, 4.5)],
  [
    'round of bread, published parameters',
    jobOf(everyShape[3]!.body, publishedBread, 0.1, 25, [stage(everyShape[3]!.body, oven(10, 200), 1.2)]),
  ],
] as const)('%s', (_, job) => {
  const at = (perHalf: number): number => {
    const course = runOnGrid(job, { ...resolutions.standard, perHalf: [perHalf, perHalf, perHalf] })
    return passes(course, course.coldest_C, 96)
  }
  test('halving the grid moves the core time by less than 2 %', () => {
    const times = [8, 16, 32].map(at)
    expect(Math.abs(times[0]! / times[1]! - 1)).toBeLessThan(0.02)
    expect(Math.abs(times[1]! / times[2]! - 1)).toBeLessThan(0.02)
  })
  test('the joined course agrees with the fine one within 1 %', () => {
    const standard = runJourney(job, { fidelity: 'standard' })
    const fine = computeJourney(job, 'fine').course
    for (const T_C of [60, 80, 93, 96])
      expect(Math.abs(passes(standard, standard.coldest_C, T_C) / passes(fine, fine.coldest_C, T_C) - 1)).toBeLessThan(
        0.01,
      )
    expect(Math.abs(standard.waterLost.at(-1)! / fine.waterLost.at(-1)! - 1)).toBeLessThan(0.02)
  })
})

describe.each(everyShape)('$name of batter, baked and cooled', ({ body: shape, height }) => {
  const job = jobOf(shape, sponge, height, 20, [stage(shape, oven(10, 190), 2), stage(shape, air(8, 5), 3)])
  const course = runJourney(job, { fidelity: 'quick' })
  test('keeps its heat in the books and nothing leaves its causes', () => {
    expect(course.energyResidual).toBeLessThan(1e-9)
    for (const segment of course.segments)
      for (const T_C of segment.T_C)
        for (const cell of cellsThere(segment.mesh)) {
          const value = T_C[cell]!
          expect(value).toBeGreaterThan(5 - 0.02)
          expect(value).toBeLessThan(190.02)
        }
  })
  test('loses no water once it has cooled, and little from its hot crust before', () => {
    const { last } = course.stages[0]!
    const cool = course.hottest_C.findLastIndex((T_C) => T_C > sponge.baking!.boils_C) + 1
    expect(course.waterLost.at(-1)).toBe(course.waterLost[cool])
    expect(course.waterLost[cool]! / course.waterLost[last]!).toBeLessThan(1.03)
    expect(course.vapourHeat.at(-1)! / course.vapourHeat[last]!).toBeGreaterThan(1 - 1e-9)
  })
  test('rises where it can', () => {
    if (height === null) expect(course.height).toBeUndefined()
    else expect(course.height!.at(-1)! / height).toBeGreaterThan(1.35)
  })
})

describe('what has boiled out is gone', () => {
  // IAPWS-IF97: steam at 101.4 °C 2677.8, liquid at 20 °C 83.9 kJ/kg.
  const PER_KG = 2_677_800 - 83_900

  test('dried out and back at its start, a piece has taken up the heat of its vapour', () => {
    const job = jobOf(body, sponge, 0.02, 20, [stage(body, held(160), 3), stage(body, held(20), 3)])
    const course = runJourney(job, { fidelity: 'quick' })
    expect(course.waterLost.at(-1)!).toBeCloseTo(0.02 * sponge.density * sponge.baking!.boilsOut, 9)
    const entered = course.heatThrough.bottom!.at(-1)! + course.heatThrough.top!.at(-1)!
    // 0.5 %: the dry mass's heat capacity is the same both ways, so only the vapour is left.
    expect(Math.abs(entered / (course.waterLost.at(-1)! * PER_KG) - 1)).toBeLessThan(0.005)
  })
  test('half dried and back at its start likewise, but for the cell the front stands in', () => {
    const job = jobOf(body, sponge, 0.06, 20, [stage(body, held(160), 2), stage(body, held(20), 40)])
    const course = runJourney(job, { fidelity: 'fine' })
    const share = course.waterLost.at(-1)! / (0.06 * sponge.density * sponge.baking!.boilsOut)
    expect(share).toBeGreaterThan(0.2)
    expect(share).toBeLessThan(0.9)
    const entered = course.heatThrough.bottom!.at(-1)! + course.heatThrough.top!.at(-1)!
    expect(Math.abs(entered / (course.waterLost.at(-1)! * PER_KG) - 1)).toBeLessThan(0.01)
  })
  test('heated again it goes on where it stopped', () => {
    const pause = jobOf(body, sponge, 0.05, 20, [
      stage(body, oven(10, 180), 1.2),
      stage(body, air(10, 20), 2),
      stage(body, oven(10, 180), 1.2),
    ])
    const course = runJourney(pause, { fidelity: 'quick' })
    expect(course.energyResidual).toBeLessThan(1e-9)
    const [bake, rest] = course.stages
    const lost = course.waterLost
    expect(lost[rest!.last]! / lost[bake!.last]!).toBeLessThan(1.03)
    for (let i = 1; i < lost.length; i++) expect(lost[i]).toBeGreaterThanOrEqual(lost[i - 1]! - 1e-12)
    expect(lost.at(-1)!).toBeGreaterThan(1.3 * lost[bake!.last]!)
  })
})

test('cream poured on a baked base: state and books go on', () => {
  const layer = { name: 'stages[1].start[0]', material: cream, thickness: 0.05, start_C: 60 }
  const job: Job = {
    body,
    lining: [],
    fill: [{ name: 'fill[0]', material: sponge, thickness: 0.05, start_C: 20 }],
    probes: [],
    stages: [stage(body, oven(10, 180), 1.5), { ...stage(body, air(10, 4), 4), start: [{ do: 'pour', layer }] }],
  }
  const course = runJourney(job, { fidelity: 'quick' })
  expect(course.energyResidual).toBeLessThan(1e-9)
  const { last } = course.stages[0]!
  const [baked, poured] = course.segments
  const own = poured!.mesh.layerOf.indexOf(1)
  for (const name of ['set', 'dried', 'growth']) {
    // Carried over as a mean of one cell: within round-off.
    for (const [cell, value] of baked!.states[name]!.at(-1)!.entries())
      expect(poured!.states[name]![0]![cell]).toBeCloseTo(value, 12)
    expect(poured!.states[name]![0]![own]).toBeNaN()
  }
  expect(course.waterLost[last + 1]).toBeCloseTo(course.waterLost[last]!, 12)
  const place = course.places()[0]!
  expect(place.states.set!.at(-1)).toBeCloseTo(baked!.states.set!.at(-1)![0]!, 12)
  expect(place.states.set).toHaveLength(place.t.length)
})

test('a batter that stays cool is nothing but a mass', () => {
  const job = jobOf(body, sponge, 0.1, 22, [stage(body, air(10, 4), 6)])
  const course = runJourney(job, { fidelity: 'quick' })
  expect(course.height).toBeUndefined()
  expect(course.segments[0]!.states).toEqual({})
  expect(course.waterLost.at(-1)).toBe(0)
})
