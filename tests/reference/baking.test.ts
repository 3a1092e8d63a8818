import { describe, expect, test } from 'vitest'
import { blockBody } from '../../src/core/geometry/shapes/block.ts'
import { roundBody } from '../../src/core/geometry/shapes/round.ts'
import type { Course } from '../../src/core/journey/course.ts'
import { runOnGrid } from '../../src/core/journey/grid-journey.ts'
import type { Job } from '../../src/core/journey/job.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { resolutions } from '../../src/core/journey/resolution.ts'
import { getMaterial } from '../../src/core/materials/index.ts'
import { oven, publishedBread } from '../physics/baking-jobs.ts'
import { air, insulated, jobOf, passes, read, stage } from '../physics/jobs.ts'
import { baked, fruitCake, poundCake } from './baked-pieces.ts'

/* Bread and cakes of the literature and of the trade. Every band says where it comes from and how sure it is. */

/** Hours until the last place has reached a temperature. */
const coreTime = (course: Course, T_C: number): number => passes(course, course.coldest_C, T_C)

/** Rich fruit cake in a round tin, 75 mm deep, at the middle of its film. */
function fruitTin(diameter: number): Job {
  const body = roundBody({ diameter })
  return jobOf(body, fruitCake, 0.075, 20, [stage(body, air(11.5, 140), 8)])
}

describe('bread by published parameters (from memory; front at 100 °C confirmed)', () => {
  // A loaf of 80 to 100 mm across, long: a round with idle ends. Oven 200 °C; film of a domestic oven, 10 W/(m² K) and
  // radiation. Bake loss 8 to 12 % of the dough (from memory; a bakery's chart, seen: about 10 % when baked, over
  // 12 to 15 % too long, and 98 °C in the middle); core of lean bread 93 to 99 °C when baked (published chart, seen); such loaves take 15 to 35 min at 200 to 220 °C (common practice, no source).
  const length = 0.3
  test.each([
    [0.08, 200],
    [0.09, 200],
    [0.1, 200],
    [0.08, 220],
  ])('%s m across at %s °C', (diameter, air_C) => {
    const body = roundBody({ diameter })
    const ends = { top: insulated, bottom: insulated }
    const job = jobOf(body, publishedBread, length, 25, [stage(body, oven(10, air_C), 1, ends)])
    const course = runJourney(job, { fidelity: 'standard' })
    const done = coreTime(course, 97)
    expect(done * 60).toBeGreaterThan(15)
    expect(done * 60).toBeLessThan(35)
    const dough = (Math.PI / 4) * diameter ** 2 * length * publishedBread.density
    const loss = (100 * read(course, course.waterLost, done)) / dough
    expect(loss).toBeGreaterThan(8)
    expect(loss).toBeLessThan(12)
    // The core tends to 100 °C and stays below it, while the crust tends to the oven (Zanoni 1993, 1994, abstracts seen).
    expect(read(course, course.coldest_C, 1)).toBeLessThan(100.001)
    expect(read(course, course.coldest_C, 1.5 * done)).toBeLessThan(100)
    expect(read(course, course.surface_C, done)).toBeGreaterThan(130)
    expect(read(course, course.surface_C, 1)).toBeGreaterThan(read(course, course.surface_C, done))
  })
})

describe('pound cake, 300 g of batter', () => {
  // Journal of Home Economics of Japan 25 (1974) 38 (abstract seen): 50 to 55 min at 150 °C, 5 min less for each 10 K,
  // end point by colour and texture, 15 %. The tin is not given: a small one of 65 × 150 mm is taken. Core of pound
  // cake 99 to 100 °C when baked (published chart, seen). Bake loss of cakes 8 to 12 % (from memory).
  const courses = new Map(
    [150, 160, 170, 180, 190].map((air_C) => [air_C, runJourney(poundCake(air_C), { fidelity: 'quick' })]),
  )
  test.each([...courses])('at %s °C the core is baked within the published band', (air_C, course) => {
    const low = 50 - (air_C - 150) / 2
    const done = 60 * coreTime(course, 99.5)
    expect(done).toBeGreaterThan(0.85 * low)
    expect(done).toBeLessThan(1.15 * (low + 5))
  })
  test.each([...courses])('at %s °C it loses 6 to 12 % in the published time', (air_C, course) => {
    const middle = (52.5 - (air_C - 150) / 2) / 60
    const loss = (100 * read(course, course.waterLost, middle)) / 0.3
    // Below the usual 8 %: what evaporates from a wet surface before it boils is left out.
    expect(loss).toBeGreaterThan(6)
    expect(loss).toBeLessThan(12)
  })
  test('a miss: time at 150 °C over that at 190 °C, 1.62 give or take 15 %', () => {
    const ratio = coreTime(courses.get(150)!, 99.5) / coreTime(courses.get(190)!, 99.5)
    // 1.2 is computed. The published end point is the colour of the crust, whose reactions double every 10 to 15 K;
    // heat to the core follows the oven's temperature far less, and evaporation below boiling is left out.
    expect(ratio).toBeGreaterThan(1.15)
    expect(ratio).toBeLessThan(1.62 * 0.85)
  })
})

describe('rich fruit cake, round tins, 75 mm deep, 140 °C', () => {
  // Published kitchen charts (seen): 6 inch 2.5 to 3.5 h, 10 inch 4 to 5 h, 15 %; core 95 to 98 °C; film 8 to 15 W/(m² K),
  // assumed there. The batter is made from an ordinary recipe (proportions from memory), nothing is fitted.
  test('its properties lie where they are assumed to', () => {
    const { k, c, rho } = fruitCake.at(40)
    expect(k).toBeGreaterThan(0.25)
    expect(k).toBeLessThan(0.35)
    expect(c).toBeGreaterThan(2200)
    expect(c).toBeLessThan(2600)
    expect(rho).toBeGreaterThan(1050)
    expect(rho).toBeLessThan(1200)
  })
  test.each([
    ['6 inch', 0.1524, 2.5, 3.5],
    ['10 inch', 0.254, 4, 5],
  ])('%s', (_, diameter, low, high) => {
    const body = roundBody({ diameter })
    const done = [8, 11.5].map((h) =>
      coreTime(
        runJourney(jobOf(body, fruitCake, 0.075, 20, [stage(body, air(h, 140), 8)]), { fidelity: 'standard' }),
        96.5,
      ),
    )
    for (const time of done) {
      expect(time).toBeGreaterThan(0.85 * low)
      expect(time).toBeLessThan(1.15 * high)
    }
  })
  test('a near miss: 10 inch at the upper end of the film', () => {
    const body = roundBody({ diameter: 0.254 })
    const job = jobOf(body, fruitCake, 0.075, 20, [stage(body, air(15, 140), 8)])
    const done = coreTime(runJourney(job, { fidelity: 'standard' }), 96.5)
    // 3.4 h is 15 % below the chart; tins are lined with paper, which 15 W/(m² K) leaves out.
    expect(done).toBeGreaterThan(3.2)
    expect(done).toBeLessThan(0.85 * 4.1)
  })
  test('grows with size less than with its square', () => {
    const times = [0.1524, 0.254].map((diameter) => {
      const body = roundBody({ diameter })
      return coreTime(
        runJourney(jobOf(body, fruitCake, 0.075, 20, [stage(body, air(11.5, 140), 8)]), { fidelity: 'quick' }),
        96.5,
      )
    })
    // The charts: 4.5 over 3 h.
    expect(times[1]! / times[0]!).toBeGreaterThan(1.5 * 0.85)
    expect(times[1]! / times[0]!).toBeLessThan(1.5 * 1.15)
  })
})

describe('sponge cakes of 300 g in tins of 145 × 75 mm, paper-lined, 180 °C: 45 min', () => {
  // Seen in the methods of a paper on sponge cakes whose title was not shown; oven and batter are not described. A baking
  // time is long enough for the core, never too short.
  const batter = getMaterial('sponge-batter')
  const body = blockBody({ width: 0.075, length: 0.145 })
  const depth = 0.3 / batter.density / (0.075 * 0.145)
  test.each(['oven-static', 'oven-convection'])('%s', (name) => {
    const course = runJourney(baked(body, batter, depth, 22, 1, { air_C: 180, in: name }), { fidelity: 'quick' })
    expect(60 * coreTime(course, 93)).toBeGreaterThan(15)
    expect(60 * coreTime(course, 96)).toBeLessThan(45)
    expect(read(course, course.coldest_C, 0.75)).toBeLessThan(batter.baking!.boils_C)
  })
})

describe('sponge of 120 and 190 g, pound cake of 190 g, in round tins of 120 mm, 150 to 200 °C', () => {
  // Watanabe, Kiyoyoshi & Yamada, Science of Cookery (Japan) 25 (1992) 293–300, abstract seen; the oven is not described.
  const cake = (id: string, kg: number, air_C: number): Course => {
    const batter = getMaterial(id)
    const depth = kg / batter.density / ((Math.PI / 4) * 0.12 ** 2)
    const job = baked(roundBody({ diameter: 0.12 }), batter, depth, 22, 1.2, { air_C })
    return runJourney(job, { fidelity: 'quick' })
  }
  const kinds = [
    ['sponge-batter', 0.12],
    ['sponge-batter', 0.19],
    ['pound-batter', 0.19],
  ] as const
  const ovens_C = [150, 160, 170, 180, 190, 200]
  const courses = kinds.map(([id, kg]) => ovens_C.map((air_C) => cake(id, kg, air_C)))
  const [small, large, pound] = courses as [Course[], Course[], Course[]]
  test('the hotter the oven, the faster the inside', () => {
    for (const row of courses)
      for (let i = 1; i < row.length; i++)
        for (const T_C of [40, 60, 80, 95]) expect(coreTime(row[i]!, T_C)).toBeLessThan(coreTime(row[i - 1]!, T_C))
  })
  test('the small sponge is the fastest of the three', () => {
    for (const [i, course] of small.entries())
      for (const other of [large[i]!, pound[i]!])
        for (const T_C of [60, 80, 95]) expect(coreTime(course, T_C)).toBeLessThan(coreTime(other, T_C))
  })
  test('a near miss: the large sponge comes before the pound cake', () => {
    // Computed the other way round, by 5 to 25 %: the foam is deeper by two thirds, and how much vapour carries through
    // its bubbles is known to 30 % (see the weak points of the materials). In cakes as heavy as each other it decides.
    for (const [i, course] of large.entries())
      for (const T_C of [60, 80, 95]) {
        const ratio = coreTime(course, T_C) / coreTime(pound[i]!, T_C)
        expect(ratio).toBeGreaterThan(1)
        expect(ratio).toBeLessThan(1.3)
      }
  })
  /** Share of its last height that a cake has when the place 10 mm from side and bottom has come to rest. */
  const risen = (course: Course): number => {
    const { height } = course
    const last = height!.at(-1)!
    const rim = course.follow({ x: 0.01 / 0.12, y: Math.min(0.01 / last, 0.9), z: 0.5 })
    return read(course, height!, passes(course, rim, 97)) / last
  }
  test('a sponge has risen to 93 to 103 % when its rim has come to rest', () => {
    for (const course of [...small, ...large]) {
      expect(risen(course)).toBeGreaterThan(0.93)
      expect(risen(course)).toBeLessThan(1.03)
    }
  })
  test('a miss: the pound cake to 77 to 84 %', () => {
    // Computed to all of it: a piece has one height here, and no crown swells from its heart once the rim is set.
    for (const course of pound) expect(risen(course)).toBeGreaterThan(0.95)
  })
})

describe.each([
  ['pound cake, 170 °C', poundCake(170), 96, [8, 16]],
  ['fruit cake, 6 inch', fruitTin(0.1524), 96, [12, 24]],
] as const)('%s', (_, job, T_C, cells) => {
  test('cells of half the size move the core time by less than 2 %', () => {
    const [coarse, fine] = cells.map((perHalf) => {
      const course = runOnGrid(job, { ...resolutions.quick, perHalf: [perHalf, perHalf, perHalf] })
      return coreTime(course, T_C)
    })
    expect(Math.abs(coarse! / fine! - 1)).toBeLessThan(0.02)
  })
})

describe('pound cake and loaf: the front moves inward', () => {
  const ends = { top: insulated, bottom: insulated }
  const loaf = roundBody({ diameter: 0.09 })
  test.each([
    ['pound cake', poundCake(170)],
    ['bread, published parameters', jobOf(loaf, publishedBread, 0.3, 25, [stage(loaf, oven(10, 200), 1, ends)])],
  ])('%s', (_, job) => {
    const course = runOnGrid(job, resolutions.quick)
    const { T_C, mesh, states } = course.segments[0]!
    const dry = (sample: number): number => states.dried![sample]!.reduce((sum, x, i) => sum + x * mesh.volume[i]!, 0)
    for (let i = 1; i < course.t.length; i++) expect(dry(i)).toBeGreaterThanOrEqual(dry(i - 1) - 1e-15)
    // Who is dry is hotter than the front, who is moist is not: nothing boils behind it.
    const last = T_C.length - 1
    const boils = job.fill[0]!.material.baking!.boils_C
    for (const [cell, share] of states.dried![last]!.entries()) {
      if (share === 1) expect(T_C[last]![cell]).toBeGreaterThan(boils - 0.01)
      else expect(T_C[last]![cell]).toBeLessThan(boils + 0.01)
    }
    expect(dry(last)).toBeGreaterThan(0)
  })
})
