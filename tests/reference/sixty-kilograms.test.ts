import { afterAll, describe, expect, test } from 'vitest'
import { blockBody } from '../../src/core/geometry/shapes/block.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import type { Course } from '../../src/core/journey/course.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { builtInMass } from '../../src/core/materials/built-in.ts'
import { condensedDensity } from '../../src/core/materials/composition.ts'
import { findBuiltIn, getMaterial } from '../../src/core/materials/index.ts'
import { massMaterial } from '../../src/core/materials/mass-material.ts'
import type { Material } from '../../src/core/materials/material.ts'
import { scaled } from '../../src/core/materials/scaled.ts'
import { passes, read } from '../physics/jobs.ts'
import { baked } from './baked-pieces.ts'

/*
 * 60 kg of sponge batter filling an oven of 180 °C: baked after 3 to 5 h (common practice, no source). Area and depth must
 * be stated: one square metre, so 120 mm of a batter of 500 kg/m³. Core 93 to 96 °C, where light sponges are taken out.
 *
 * What drives the spread is computed below, one input moved at a time, and printed in order. Depth rules, by its square,
 * and with it how light the foam is; then conductivity, known to 30 % above 60 °C, and how far it rises. The oven hardly
 * counts: once there is crust, its 180 °C stop at the front, and what is inside is heated by a front that never gets
 * above 101 °C.
 */

const body = sheetBody({})
const sponge = getMaterial('sponge-batter')
const KG = 60
const DEPTH = KG / sponge.density
const WINDOW_C = [93, 96] as const

interface How {
  readonly batter?: Material
  readonly depth?: number
  readonly start_C?: number
  readonly oven?: Parameters<typeof baked>[5]
}
const run = ({ batter = sponge, depth = DEPTH, start_C = 22, oven = { air_C: 180 } }: How = {}): Course =>
  runJourney(baked(body, batter, depth, start_C, 9, oven), { fidelity: 'standard' })
const window = (course: Course): number[] => WINDOW_C.map((T_C) => passes(course, course.coldest_C, T_C))
const course = run()
const base = window(course)

/** The same batter beaten to another density, or rising another way. */
const plain = { ...builtInMass(findBuiltIn('sponge-batter')!), porosity: 0 }
const foam = (density: number, mostGrowth = 1.4): Material =>
  massMaterial({
    id: 'foam',
    title: 'Foam',
    look: 'batter',
    mass: { ...plain, porosity: 1 - density / condensedDensity(plain, 20, 0) },
    sources: [],
    baking: { baked: false, mostGrowth, leavening: 0 },
  })

/** Inputs that nobody knows exactly, at the end that bakes sooner and at the one that bakes later. */
const moved: readonly (readonly [string, How, How])[] = [
  ['depth as poured, 108 / 133 mm', { depth: 0.9 * DEPTH }, { depth: DEPTH / 0.9 }],
  [
    'density of the foam, 600 / 400 kg/m³',
    { batter: foam(600), depth: KG / 600 },
    { batter: foam(400), depth: KG / 400 },
  ],
  [
    'conductivity, +20 / −20 %',
    { batter: scaled(sponge, { k: 1.2, heat: 1 }) },
    { batter: scaled(sponge, { k: 0.8, heat: 1 }) },
  ],
  ['rises 1.2 / 1.5 times', { batter: foam(sponge.density, 1.2) }, { batter: foam(sponge.density, 1.5) }],
  ['batter at 30 / 15 °C', { start_C: 30 }, { start_C: 15 }],
  [
    'stored heat, −5 / +5 %',
    { batter: scaled(sponge, { k: 1, heat: 0.95 }) },
    { batter: scaled(sponge, { k: 1, heat: 1.05 }) },
  ],
  ['oven at 195 / 165 °C', { oven: { air_C: 195 } }, { oven: { air_C: 165 } }],
  ['film of a still oven, high / low', { oven: { air_C: 180, film: 'high' } }, { oven: { air_C: 180, film: 'low' } }],
  ['convection oven / still air', { oven: { air_C: 180, in: 'oven-convection' } }, {}],
]
const drivers = moved
  .map(([name, soon, late]) => ({ name, soon: window(run(soon)), late: window(run(late)) }))
  .sort((a, b) => b.late[1]! - b.soon[1]! - (a.late[1]! - a.soon[1]!))
const spreadOf = (begin: string): number => {
  const { soon, late } = drivers.find(({ name }) => name.startsWith(begin))!
  return late[1]! - soon[1]!
}

describe('60 kg of sponge batter on a square metre, oven at 180 °C', () => {
  test('the core passes its window of 93 to 96 °C between 3 and 5 h', () => {
    for (const time of base) {
      expect(time).toBeGreaterThan(3)
      expect(time).toBeLessThan(5)
    }
  })
  test('a whole block of it, sides heated too, does so as well', () => {
    const block = blockBody({ width: 0.8, length: 1.25 })
    const whole = runJourney(baked(block, sponge, DEPTH, 22, 5, { air_C: 180 }), { fidelity: 'quick' })
    for (const [i, time] of window(whole).entries()) expect(Math.abs(time / base[i]! - 1)).toBeLessThan(0.03)
    expect(whole.waterLost.at(-1)!).toBeGreaterThan(course.waterLost[course.t.findIndex((t) => t > 5 * 3600)]!)
  })
  test('it loses 4 to 8 %: less than small cakes do, having less surface', () => {
    const loss = (100 * read(course, course.waterLost, base[1]!)) / KG
    expect(loss).toBeGreaterThan(4)
    expect(loss).toBeLessThan(8)
  })
})

describe('what drives the spread', () => {
  test('the foam is the built-in batter, beaten otherwise', () => {
    expect(Math.abs(window(run({ batter: foam(sponge.density) }))[1]! / base[1]! - 1)).toBeLessThan(0.01)
  })
  test('every input moves the time the way that it must', () => {
    for (const { soon, late } of drivers)
      for (const i of [0, 1]) {
        expect(soon[i]).toBeLessThanOrEqual(base[i]! * 1.01)
        expect(late[i]).toBeGreaterThanOrEqual(base[i]! * 0.99)
      }
  })
  test('depth counts by its square, conductivity by itself', () => {
    const [depth, k] = ['depth', 'conductivity'].map((begin) => drivers.find(({ name }) => name.startsWith(begin))!)
    const power = Math.log(depth!.late[0]! / depth!.soon[0]!) / Math.log(1 / 0.81)
    expect(power).toBeGreaterThan(1.6)
    expect(power).toBeLessThan(2.1)
    expect(k!.late[0]! / base[0]!).toBeGreaterThan(1.18)
    expect(k!.late[0]! / base[0]!).toBeLessThan(1.27)
  })
  test('the batter counts most, the oven least', () => {
    const batter = ['depth', 'density', 'conductivity'].map(spreadOf)
    const oven = ['oven', 'film', 'convection'].map(spreadOf)
    expect(Math.min(...batter)).toBeGreaterThan(3 * Math.max(...oven))
  })
})

afterAll(() => {
  const hours = (values: readonly number[]): string => values.map((value) => value.toFixed(1)).join(' ')
  const lines = drivers.map(
    ({ name, soon, late }, rank) =>
      `${rank + 1}. ${name.padEnd(38)} ${hours(soon)} / ${hours(late)}   spread ${(late[1]! - soon[1]!).toFixed(1)} h`,
  )
  process.stdout.write(
    `\n60 kg of sponge batter, hours until its core is at 93 and 96 °C: ${hours(base)}\nOne input moved at a time, greatest spread first:\n${lines.join('\n')}\n`,
  )
})
