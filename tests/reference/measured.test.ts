import { readFileSync } from 'node:fs'
import { afterAll, describe, expect, test } from 'vitest'
import { forcedFilm } from '../../src/core/boundary/film-laws.ts'
import { radiativeFilm } from '../../src/core/boundary/radiation.ts'
import { blockBody } from '../../src/core/geometry/shapes/block.ts'
import { roundBody } from '../../src/core/geometry/shapes/round.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import type { Course } from '../../src/core/journey/course.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import { materialFromPlan } from '../../src/core/materials/material-from-plan.ts'
import type { Row } from '../../src/core/verification/report.ts'
import { verifyCases } from '../../src/core/verification/verify.ts'
import { oven, publishedBread } from '../physics/baking-jobs.ts'
import { air, insulated, jobOf, passes, read, stage } from '../physics/jobs.ts'
import { fruitCake, poundCake } from './baked-pieces.ts'
import { knownMisses, missesFromAssumed } from './known-misses.ts'

/*
 * Everything that was measured, beside what the core computes. The first rows are the cases of the file that give their
 * inputs. The others give only part of them: what is missing is assumed, said in the row, and taken as a range from low
 * to high. Tolerances are those of the file, its sources too.
 */

interface Entry {
  readonly id: string
  readonly kind: string
  readonly tolerance: { readonly rel?: number; readonly abs_K?: number }
  readonly outputs: readonly {
    readonly value: number | readonly [number, number] | string
    readonly tolerance?: { readonly rel: number }
  }[]
}
const file = new URL('../../shared/reference/validation-cases.json', import.meta.url)
const { cases } = JSON.parse(readFileSync(file, 'utf8')) as { cases: readonly Entry[] }
const experiments = cases.filter(({ kind }) => kind === 'experiment')

const fidelity = 'quick'
const run = (...job: Parameters<typeof jobOf>): Course => runJourney(jobOf(...job), { fidelity })
const meat = fixedMaterial({ id: 'meat', title: 'Cooked meat', k: 0.48, rho: 1050, c: 3500 })
const broth = fixedMaterial({ id: 'broth', title: 'Soup, slurry', k: 0.5, rho: 1020, c: 3800 })
const pork = materialFromPlan(
  'pork',
  { composition_pct: { water: 72, protein: 21, fat: 5.5, sugars: 0, starch: 0, fibre: 0, ash: 1.2 } },
  'materials.pork',
)

/** Time of the slowest place to cool to a temperature, s. */
const cooled = (course: Course, T_C: number): number => 3600 * passes(course, course.hottest_C, T_C)
const warmed = (course: Course, T_C: number): number => 3600 * passes(course, course.coldest_C, T_C)

/** A joint of 5 to 8 kg, 160 to 190 mm across, in air or water of 0 to 4 °C. */
const joint = (h: number, kg: number, diameter: number, air_C: number): number => {
  const body = roundBody({ diameter })
  const length = kg / meat.density / ((Math.PI / 4) * diameter ** 2)
  return cooled(run(body, meat, length, 74, [stage(body, air(h, air_C), 40)]), 10)
}
const joints = (low: number, high: number): number[] => [joint(high, 5, 0.16, 0), joint(low, 8, 0.19, 4)]

/** A pot as wide as is usual for its mass, air across it and radiation. */
const pot = (kg: number, diameter: number, speed: number): number => {
  const body = roundBody({ diameter })
  const h = forcedFilm({ kind: 'cylinder', diameter }, speed, 20, 0) + radiativeFilm(0.9, 20, 0)
  const height = kg / broth.density / ((Math.PI / 4) * diameter ** 2)
  return cooled(run(body, broth, height, 70, [stage(body, air(h, 0), 30)]), 3)
}
const soup = [6, 3, 1].map((speed) => pot(0.6, 0.1, speed))
const sauce = [6, 3, 1].map((speed) => pot(0.35, 0.085, speed))

/** Doubled in thickness, its surface held or under a strong film. */
const doubled = (Bi: number): number => {
  const body = sheetBody({})
  const times = [0.05, 0.1].map((thickness) =>
    cooled(run(body, meat, thickness, 70, [stage(body, air((Bi * meat.at(20).k) / 0.025, 0), 20)]), 10),
  )
  return times[1]! / times[0]!
}

/** Mean of a vat 1.1 m square: its slurry mixes. */
const vat = (h: number): number => {
  const body = blockBody({ width: 1.1, length: 1.1 })
  const course = run(body, broth, 0.5, 99, [stage(body, air(h, 23), 16)])
  return read(course, course.mean_C, 16)
}

/** A piece of 80 × 60 × 40 mm: moist room air leaves water on it as it thaws, which a fridge's doesn't. */
const piece = (h: number, air_C: number): number => {
  const body = blockBody({ width: 0.06, length: 0.08 })
  return warmed(run(body, pork, 0.04, -6, [stage(body, air(h, air_C), 60)]), 0)
}
const inRoom = [12, 18].map((h) => piece(h, 20))
const inFridge = [7, 9].map((h) => piece(h, 4))
const inWater = [100, 400].map((h) => piece(h, 20))
const over = (above: readonly number[], below: readonly number[]): number[] =>
  above.map((value, index) => value / below[index]!)

const fruit = (diameter: number): number[] =>
  [8, 15].map((h) => {
    const body = roundBody({ diameter })
    return warmed(run(body, fruitCake, 0.075, 20, [stage(body, air(h, 140), 9)]), 96.5)
  })
const pound = [150, 160, 170, 180, 190].map((air_C) => warmed(runJourney(poundCake(air_C), { fidelity }), 99.5))

/** Core of a baked loaf while the crust is 130 °C and more, °C. */
const crumb = (): number[] => {
  const body = roundBody({ diameter: 0.09 })
  const ends = { top: insulated, bottom: insulated }
  const course = run(body, publishedBread, 0.3, 25, [stage(body, oven(10, 200), 1, ends)])
  return [course.hottest_C, course.coldest_C].map((values) => read(course, values, 0.8))
}
const [crust_C, crumb_C] = crumb() as [number, number]

/** One value of an output that the file can't run, from assumed inputs; `bound` where only a least value was measured. */
interface Assumed {
  readonly output: number
  readonly label: string
  readonly assumed: string
  readonly computed: readonly number[]
  readonly bound?: true
}

const assumed: Readonly<Record<string, readonly Assumed[]>> = {
  'C-joints-methods': [
    ['slow air', 8, 15],
    ['air blast', 20, 35],
    ['water', 100, 400],
  ].map(([medium, low, high], output) => ({
    output,
    label: `74 to 10 degC, ${medium}, at least`,
    assumed: `5 to 8 kg, 160 to 190 mm, 0 to 4 degC, h ${low} to ${high}`,
    computed: joints(low as number, high as number),
    bound: true,
  })),
  'C-pots': [
    ...soup.map((value, i) => ({
      output: i,
      label: `soup, 70 to 3 degC, ${[6, 3, 1][i]} m/s`,
      assumed: '100 mm wide',
      computed: [value],
    })),
    ...sauce.map((value, i) => ({
      output: 3 + i,
      label: `sauce, 70 to 3 degC, ${[6, 3, 1][i]} m/s`,
      assumed: '85 mm wide',
      computed: [value],
    })),
    { output: 6, label: 'soup, 1 over 6 m/s', assumed: '100 mm wide', computed: [soup[2]! / soup[0]!] },
    { output: 7, label: 'sauce, 1 over 6 m/s', assumed: '85 mm wide', computed: [sauce[2]! / sauce[0]!] },
  ],
  'C-square-law': [
    { output: 0, label: 'twice as thick', assumed: 'Biot number from 10 up', computed: [doubled(10), doubled(1e9)] },
  ],
  'C-vat': [{ output: 0, label: 'mean after 16 h', assumed: 'square, h 6 to 12', computed: [vat(12), vat(6)] }],
  'C-thaw-pork': [
    { output: 3, label: 'fridge over room', assumed: '80 × 60 × 40 mm', computed: over(inFridge, inRoom.toReversed()) },
    { output: 4, label: 'room over water', assumed: '80 × 60 × 40 mm', computed: over(inRoom, inWater.toReversed()) },
    { output: 0, label: 'room, -6 to 0 degC', assumed: '80 × 60 × 40 mm, h 12 to 18', computed: inRoom },
    { output: 1, label: 'fridge, -6 to 0 degC', assumed: '80 × 60 × 40 mm, h 7 to 9', computed: inFridge },
    { output: 2, label: 'water, -6 to 0 degC', assumed: '80 × 60 × 40 mm, h 100 to 400', computed: inWater },
  ],
  'C-fruitcake-6in': [{ output: 0, label: 'core 96.5 degC', assumed: 'recipe, h 8 to 15', computed: fruit(0.1524) }],
  'C-fruitcake-10in': [{ output: 0, label: 'core 96.5 degC', assumed: 'recipe, h 8 to 15', computed: fruit(0.254) }],
  'C-poundcake': [
    ...pound.map((value, output) => ({
      output,
      label: `core 99.5 degC, oven ${150 + 10 * output} degC`,
      assumed: 'tin 65 × 150 mm',
      computed: [value],
    })),
    { output: 5, label: '150 over 190 degC', assumed: 'tin 65 × 150 mm', computed: [pound[0]! / pound[4]!] },
  ],
}

const ends = (values: readonly number[]): [number, number] => [Math.min(...values), Math.max(...values)]

function rowOf(entry: Entry, { output, label, computed, bound }: Assumed): Row {
  const { value, tolerance } = entry.outputs[output]!
  const expected = ends(typeof value === 'number' ? [value] : (value as readonly number[]))
  const found = ends(computed)
  const error = Math.max(0, expected[0] - found[1], bound === true ? 0 : found[0] - expected[1])
  const rel = tolerance?.rel ?? entry.tolerance.rel
  const allowed = rel === undefined ? entry.tolerance.abs_K! : rel * expected[1]
  const verdict = error <= allowed ? 'ok' : 'outside'
  return { case: entry.id, output: label, unit: '', computed: found, expected, error, tolerance: allowed, verdict }
}

const direct = verifyCases(experiments, { fidelity: 'standard' }).rows.filter(
  ({ verdict }) => verdict !== 'not applicable',
)
const fromAssumed = experiments.flatMap((entry) => (assumed[entry.id] ?? []).map((one) => rowOf(entry, one)))
const rows = [...direct, ...fromAssumed]
const misses = [...knownMisses, ...missesFromAssumed].filter((miss) => miss.case.startsWith('C-'))
const missOf = (row: Row) => misses.find((miss) => miss.case === row.case && row.output.startsWith(miss.output))

describe('every published measurement of the file', () => {
  test('is in the table', () => {
    const told = new Set([...rows.map((row) => row.case), 'C-evap-front'])
    expect(experiments.filter(({ id }) => !told.has(id)).map(({ id }) => id)).toEqual([])
    expect(rows.length).toBeGreaterThan(40)
  })
  test('is met within its tolerance, or is a known miss with its reason', () => {
    expect(rows.filter((row) => row.verdict === 'outside' && missOf(row) === undefined)).toEqual([])
  })
  test('knows no miss that has become a hit', () => {
    const missed = rows.filter((row) => row.verdict === 'outside').map(missOf)
    expect(misses.filter((miss) => !missed.includes(miss))).toEqual([])
  })
  test('C-evap-front: the crumb stays below 100 °C while the crust passes straight through', () => {
    expect(crumb_C).toBeGreaterThan(97)
    expect(crumb_C).toBeLessThan(100)
    expect(crust_C).toBeGreaterThan(130)
  })
})

afterAll(() => {
  const shown = (value: Row['computed']): string => {
    const [low, high] = ends([value ?? Number.NaN].flat())
    const one = (x: number): string => (x >= 1000 ? `${(x / 3600).toFixed(2)} h` : x.toFixed(2))
    return one(low) === one(high) ? one(low) : `${one(low)} to ${one(high)}`
  }
  const assumedOf = (row: Row): string =>
    assumed[row.case]?.find((one) => one.label === row.output)?.assumed ?? 'as the case says'
  const table = rows.map((row) => {
    const verdict = row.verdict === 'ok' ? 'ok' : `MISS: ${missOf(row)?.reason ?? 'unknown'}`
    const allowed = `±${((100 * row.tolerance!) / row.expected![1]).toFixed(0)} %`
    return [
      row.case.padEnd(24),
      row.output.slice(0, 52).padEnd(53),
      shown(row.expected).padEnd(19),
      shown(row.computed).padEnd(19),
      allowed.padEnd(7),
      `${verdict} (${assumedOf(row)})`,
    ].join(' ')
  })
  const heads = ['case'.padEnd(24), 'output'.padEnd(53), 'measured'.padEnd(19), 'computed'.padEnd(19), 'allowed'].join(
    ' ',
  )
  process.stdout.write(`\n${heads}\n${table.join('\n')}\n`)
})
