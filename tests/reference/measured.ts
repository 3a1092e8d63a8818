import file from '../../shared/reference/validation-cases.json'
import { forcedFilm } from '../../src/core/boundary/film-laws.ts'
import { radiativeFilm } from '../../src/core/boundary/radiation.ts'
import { blockBody } from '../../src/core/geometry/shapes/block.ts'
import { roundBody } from '../../src/core/geometry/shapes/round.ts'
import { sheetBody } from '../../src/core/geometry/shapes/sheet.ts'
import type { Course } from '../../src/core/journey/course.ts'
import { runJourney } from '../../src/core/journey/journey.ts'
import { fixedMaterial } from '../../src/core/materials/fixed.ts'
import { materialFromPlan } from '../../src/core/materials/material-from-plan.ts'
import type { EvidenceRow, KnownMiss } from '../../src/core/verification/evidence.ts'
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
  readonly source: { readonly ref: string; readonly locator?: string }
  readonly tolerance: { readonly rel?: number; readonly abs_K?: number }
  readonly outputs: readonly {
    readonly value: number | readonly [number, number] | string
    readonly unit?: string
    readonly tolerance?: { readonly rel: number }
  }[]
}
const cases = file.cases as unknown as readonly Entry[]
export const experiments = cases.filter(({ kind }) => kind === 'experiment')

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

/** Hottest and coldest place of a published loaf after 48 minutes, °C. */
function crustAndCrumb(): readonly [crust_C: number, crumb_C: number] {
  const body = roundBody({ diameter: 0.09 })
  const ends = { top: insulated, bottom: insulated }
  const course = run(body, publishedBread, 0.3, 25, [stage(body, oven(10, 200), 1, ends)])
  return [read(course, course.hottest_C, 0.8), read(course, course.coldest_C, 0.8)]
}

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

const sourceOf = ({ source }: Entry): string => [source.ref, source.locator].filter(Boolean).join(', ')

function rowOf(entry: Entry, { output, label, assumed: taken, computed, bound }: Assumed): EvidenceRow {
  const { value, unit = '', tolerance } = entry.outputs[output]!
  const expected = ends(typeof value === 'number' ? [value] : (value as readonly number[]))
  const found = ends(computed)
  const error = Math.max(0, expected[0] - found[1], bound === true ? 0 : found[0] - expected[1])
  const rel = tolerance?.rel ?? entry.tolerance.rel
  const allowed = rel === undefined ? entry.tolerance.abs_K! : rel * expected[1]
  return {
    case: entry.id,
    source: sourceOf(entry),
    output: label,
    unit,
    computed: found,
    expected,
    error,
    tolerance: allowed,
    verdict: error <= allowed ? 'ok' : 'outside',
    assumed: taken,
  }
}

/** What the description of "C-evap-front" comes to: the crumb keeps below 100 °C while the crust passes straight through. */
function frontRows(entry: Entry): EvidenceRow[] {
  const [crust_C, crumb_C] = crustAndCrumb()
  const row = (output: string, computed: number, expected: readonly [number, number]): EvidenceRow => {
    const error = Math.max(0, expected[0] - computed, computed - expected[1])
    const verdict = error <= 0 ? 'ok' : 'outside'
    const judged = { computed, expected, error, tolerance: 0, verdict } as const
    return {
      case: entry.id,
      source: sourceOf(entry),
      output,
      unit: 'degC',
      ...judged,
      assumed: '90 mm across, 200 degC',
    }
  }
  return [row('crumb after 48 min', crumb_C, [97, 100]), row('crust after 48 min', crust_C, [130, 200])]
}

const direct: readonly EvidenceRow[] = verifyCases(experiments, { fidelity: 'standard' }).rows.filter(
  ({ verdict }) => verdict !== 'not applicable',
)

/** Every published measurement of the file beside what the core computes of it. */
export const measured: readonly EvidenceRow[] = [
  ...direct,
  ...experiments.flatMap((entry) => (assumed[entry.id] ?? []).map((one) => rowOf(entry, one))),
  ...experiments.filter(({ id }) => id === 'C-evap-front').flatMap(frontRows),
]

/** Those of the known misses that are of measurements. */
export const measuredMisses: readonly KnownMiss[] = [...knownMisses, ...missesFromAssumed].filter((miss) =>
  miss.case.startsWith('C-'),
)
