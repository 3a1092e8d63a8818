import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { PlanError } from '../../src/core/errors.ts'
import { readingsOfLog } from '../../src/core/fitting/log-readings.ts'
import { readAirLog, withAirLog } from '../../src/core/plan/air-log.ts'
import { type LogSaid, readLog } from '../../src/core/plan/log.ts'
import { findPlanFaults, readPlan } from '../../src/core/plan/read.ts'
import { expectOwnError } from './clear-words.ts'
import { examples, mutatedText, texts } from './mutations.ts'
import { share, timeout } from './runs.ts'

// The second door: a logger's file. Whatever it holds, readings come of it that a plan can keep, or our own refusal.

const hour = 3_600_000
const day = Date.UTC(2027, 2, 12, 16)
const two = (value: number): string => String(value).padStart(2, '0')

/** How loggers write a moment. */
const clocks: readonly ((at_h: number) => string)[] = [
  (at) => new Date(day + at * hour).toISOString(),
  (at) => new Date(day + at * hour).toISOString().replace('T', ' ').slice(0, 19),
  (at) => {
    const moment = new Date(day + at * hour)
    return `${two(moment.getUTCDate())}.${two(moment.getUTCMonth() + 1)}.2027 ${moment.toISOString().slice(11, 16)}`
  },
  (at) => {
    const moment = new Date(day + at * hour)
    const hours = moment.getUTCHours()
    return `3/${moment.getUTCDate()}/27 ${hours % 12 || 12}:${two(moment.getUTCMinutes())} ${hours < 12 ? 'AM' : 'PM'}`
  },
  (at) => new Date(day + at * hour).toISOString().slice(11, 16),
  (at) => String(at * 60),
]

/** A log as one of many loggers would write it. */
const log = fc
  .record({
    clock: fc.constantFrom(...clocks),
    divider: fc.constantFrom(';', ',', '\t'),
    comma: fc.boolean(),
    columns: fc.uniqueArray(fc.constantFrom('heart', 'rim', 'core', 'Air temp', 'probe 1'), {
      minLength: 1,
      maxLength: 3,
    }),
    unit: fc.constantFrom(' °C', ' [F]', '_C', ''),
    rows: fc.integer({ min: 0, max: 30 }),
    step_min: fc.constantFrom(1, 5, 15, 60, 300),
    from_C: fc.integer({ min: -40, max: 200 }),
    ending: fc.constantFrom('\n', '\r\n'),
  })
  .map(({ clock, divider, comma, columns, unit, rows, step_min, from_C, ending }) => {
    const number = (value: number): string =>
      comma && divider !== ',' ? value.toFixed(1).replace('.', ',') : value.toFixed(1)
    const lines = Array.from({ length: rows }, (_, row) =>
      [clock((row * step_min) / 60), ...columns.map((_column, index) => number(from_C - row * 0.7 + index))].join(
        divider,
      ),
    )
    return [['time', ...columns.map((column) => column + unit)].join(divider), ...lines, ''].join(ending)
  })

const originals = fc.sample(log, { numRuns: 60, seed: 1 })
const plan = readPlan(examples.find((text) => text.includes('"foot"'))!)

/** One log in so many is put into the plan and checked with all of it. */
const EVERY = 8

/** What a person may say of a log, true of it or not. */
const saids: readonly LogSaid[] = [
  {},
  { zone_h: 1 },
  { divider: ';', dayFirst: true },
  { divider: ',', fahrenheit: [true, false, true] },
  { divider: '\t', dayFirst: false, fahrenheit: [] },
]

const counted = { read: 0, refused: 0 }

/** What our own code gives, or nothing where it refuses in our own words. */
function given<T>(work: () => T): T | undefined {
  try {
    return work()
  } catch (error) {
    expect(error).toBeInstanceOf(PlanError)
    expectOwnError(error)
    return undefined
  }
}

function enter(text: string): void {
  const read = given(() => readLog(text, saids[text.length % saids.length]))
  if (read === undefined) {
    counted.refused++
    return
  }
  counted.read++
  for (const [index, at] of read.seconds.entries()) {
    expect(Number.isFinite(at)).toBe(true)
    if (index > 0) expect(at).toBeGreaterThan(read.seconds[index - 1]!)
  }
  for (const column of read.columns)
    for (const value of column.T_C) expect(Number.isNaN(value) || Number.isFinite(value)).toBe(true)
  const readings = given(() => readingsOfLog(plan, read)) ?? given(() => readingsOfLog(plan, read, { probe: 'foot' }))
  const checked = counted.read % EVERY === 0
  if (checked && readings !== undefined) expect(findPlanFaults({ ...plan, readings })).toEqual([])
  const air = given(() => readAirLog(text))
  if (air === undefined) return
  const measured = given(() => withAirLog(plan, '1', air))
  if (checked && measured !== undefined) expect(findPlanFaults(measured)).toEqual([])
}

describe("a logger's file of any contents", { timeout }, () => {
  it('as loggers write it', () => {
    fc.assert(fc.property(log, enter), share(0.2))
  })

  it('changed in its letters', () => {
    fc.assert(fc.property(mutatedText(originals), enter), share(0.6))
  })

  it('of cells put together at random', () => {
    const cell = fc.oneof(
      fc.constantFrom('12:30', '2027-03-12T12:30', '12.03.2027', '99:99', '31/12/9999 23:59', '0', '-18,5', '60.5 °C'),
      fc.constantFrom('1e9', '9'.repeat(400), '24:00', '1/1/1', '°F', 'time', 'temp_C', ''),
      fc.constantFrom(...texts),
      fc.integer().map(String),
      fc.double().map(String),
    )
    const lines = fc.array(fc.array(cell, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 12 })
    fc.assert(
      fc.property(lines, fc.constantFrom(';', ',', '\t'), (rows, divider) =>
        enter(rows.map((row) => row.join(divider)).join('\n')),
      ),
      share(0.15),
    )
  })

  it('of another kind', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 400 }), enter), share(0.05))
  })

  it('is read now and then, refused now and then', () => {
    console.info(`logs: ${counted.read} read, ${counted.refused} refused`)
    expect(Math.min(counted.read, counted.refused)).toBeGreaterThan(20)
  })
})
