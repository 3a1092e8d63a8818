import { type Fault, PlanError } from '../errors.ts'
import { localSeconds } from './clock.ts'

/*
 * A logger's file, whatever it was written by: columns divided by semicolon, tab or comma, a decimal comma told from a
 * dividing one by that; times of the clock, with or without date and zone, or counted; °C or °F by the heading.
 */

/** One column of temperatures. */
export interface LogColumn {
  /** Its heading, without unit; empty without one. */
  readonly title: string
  /** °C; NaN where a line has none. Shape: as seconds of the log */
  readonly T_C: readonly number[]
  readonly fahrenheit: boolean
}

/** Signs that may divide columns. */
export const dividers = [';', '\t', ','] as const
export type Divider = (typeof dividers)[number]

/** What a person says of a file where it can't be told from the file, or was told wrongly. */
export interface LogSaid {
  /** Hours after Greenwich of the workshop's clock, for logs that name a zone; as written where left out. */
  readonly zone_h?: number
  readonly divider?: Divider
  /** Days stand before months in dates with slashes. */
  readonly dayFirst?: boolean
  /** Of each column, whether it is in °F. */
  readonly fahrenheit?: readonly boolean[]
}

export interface Log {
  readonly divider: Divider
  /** Whether its times name a zone. */
  readonly zoned: boolean
  /** Order of dates with slashes; absent where there are none. */
  readonly dayFirst?: boolean
  /** Of each line, since the first one, rising. */
  readonly seconds: readonly number[]
  /** The first line on the clock, seconds as `localSeconds` counts; absent where times are counted, or without a date. */
  readonly from?: number
  /** Seconds after midnight of the first line, where times are of the clock without a date. */
  readonly fromClock?: number
  readonly columns: readonly LogColumn[]
  /** Stretches without a reading, far longer than usual. */
  readonly gaps: readonly { readonly from: number; readonly to: number }[]
}

/** Longest log that is read, bytes. */
export const LOG_LIMIT = 20_000_000
/** Most faults of readings that are told one by one. */
const MOST_TOLD = 3

/** A gap is longer than so many usual steps, and than this, s. */
const GAP_STEPS = 5
const GAP = 900
/** Degree sign and unit behind a number. */
const UNIT = /[°\s]*[CF]?$/i

const fault = (problem: string, remedy: string): PlanError => new PlanError([{ path: 'log', problem, remedy }])

/** Refuses a log for what some of its readings are; the first few are told. */
export function refuseReadings(faults: readonly Fault[]): void {
  if (faults.length > 0) throw new PlanError(faults.slice(0, MOST_TOLD))
}

/** The fault of a reading that is no temperature a plan can hold, such as the number that stands for a broken probe. */
export function strangeReading(index: number, T_C: number, [low_C, high_C]: readonly [number, number]): Fault[] {
  if (Number.isNaN(T_C) || (T_C >= low_C && T_C <= high_C)) return []
  const problem = `is ${Number(T_C.toPrecision(6))} °C`.replace('-', '−')
  const remedy = `take the line out, or give a temperature from ${low_C} to ${high_C} °C`.replace('-', '−')
  return [{ path: `log, reading ${index + 1}`, problem, remedy }]
}

/** The divider that most lines have, and the same number of times. */
function dividerOf(lines: readonly string[]): Divider {
  const found = dividers.map((divider) => {
    const counts = lines.map((line) => line.split(divider).length)
    const usual = counts.toSorted((a, b) => a - b)[Math.floor(counts.length / 2)]!
    return { divider, lines: usual > 1 ? counts.filter((count) => count === usual).length : 0 }
  })
  const best = found.find(({ lines: alike }) => alike > 0.5 * lines.length)
  if (best === undefined) throw fault('no columns are found', 'divide them by semicolons, tabs or commas')
  return best.divider
}

/** Numbers from here on are no readings, nor times. */
const LARGEST = 1e15

/** A number with a point, or with a comma where commas don't divide. */
function numberOf(text: string, divider: string): number {
  const bare = text.replace(UNIT, '').trim()
  const pointed = divider === ',' ? bare : bare.replace(',', '.')
  if (!/^[-+−]?\d+(\.\d+)?$/.test(pointed)) return Number.NaN
  const value = Number(pointed.replace('−', '-'))
  // Digits by the hundred are no reading; what is beyond all sense would overflow further on.
  return Math.abs(value) < LARGEST ? value : Number.NaN
}

/** Whether days stand before months in dates with slashes: so where some first number is beyond twelve. */
const daysFirst = (cells: readonly string[]): boolean =>
  cells.some((cell) => Number(/^(\d{1,2})\/\d{1,2}\/\d{2,4}/.exec(cell)?.[1] ?? 0) > 12)

/** Year, month and day of a date; nothing where there is none. */
function dateOf(text: string, dayFirst: boolean): readonly [number, number, number] | undefined {
  const iso = /(\d{4})[-/](\d{1,2})[-/](\d{1,2})/.exec(text)
  if (iso !== null) return [Number(iso[1]), Number(iso[2]), Number(iso[3])]
  const dotted = /(\d{1,2})\.(\d{1,2})\.(\d{2,4})/.exec(text)
  const slashed = /(\d{1,2})\/(\d{1,2})\/(\d{2,4})/.exec(text)
  const found = dotted ?? slashed
  if (found === null) return undefined
  const [first, second, year] = [Number(found[1]), Number(found[2]), Number(found[3])]
  const whole = year < 100 ? 2000 + year : year
  return dotted !== null || dayFirst ? [whole, second, first] : [whole, first, second]
}

/** Seconds of zone after Greenwich that a time names; nothing where it names none. */
function zoneOf(text: string): number | undefined {
  if (/\d\s*Z$/i.test(text) || /\b(UTC|GMT)$/i.test(text)) return 0
  const zone = /\d\s*(?:UTC|GMT)?\s*([+-])(\d{2}):?(\d{2})$/i.exec(text)
  if (zone === null) return undefined
  return (zone[1] === '-' ? -1 : 1) * (3600 * Number(zone[2]) + 60 * Number(zone[3]))
}

interface ReadTime {
  readonly s: number
  readonly dated: boolean
  readonly clock: boolean
}

/** Seconds of a clock time, of a date and time, or of a count in a unit; NaN for others. */
function timeOf(text: string, divider: string, unit: number, dayFirst: boolean, zone_s: number | undefined): ReadTime {
  const time = /(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)?\s*([ap]m)?/i.exec(text)
  if (time === null) return { s: unit * numberOf(text, divider), dated: false, clock: false }
  const [, hour = '0', minute = '0', second = '0', half] = time
  const noon = half === undefined ? Number(hour) : (Number(hour) % 12) + (half.toLowerCase() === 'pm' ? 12 : 0)
  const date = dateOf(text, dayFirst)
  const [year, month, day] = date ?? [1970, 1, 1]
  const said = zoneOf(text)
  // The plan's clock has no zone: a log that names one is brought to the workshop's where that is told.
  const moved = said === undefined || zone_s === undefined ? 0 : zone_s - said
  return {
    s: Date.UTC(year, month - 1, day) / 1000 + 3600 * noon + 60 * Number(minute) + Number(second) + moved,
    dated: date !== undefined,
    clock: true,
  }
}

/** Seconds of one unit of a counted time, by its heading; hours where it says nothing. */
function unitOf(heading: string): number {
  if (/\bsec|\[s\]|\(s\)|_s\b/i.test(heading)) return 1
  return /\bmin|_min/i.test(heading) ? 60 : 3600
}

function gapsOf(seconds: readonly number[]): Log['gaps'] {
  const steps = seconds.slice(1).map((at, index) => at - seconds[index]!)
  const usual = steps.toSorted((a, b) => a - b)[Math.floor(steps.length / 2)] ?? 0
  return steps.flatMap((step, index) =>
    step > Math.max(GAP, GAP_STEPS * usual) ? [{ from: seconds[index]!, to: seconds[index + 1]! }] : [],
  )
}

/** What a heading says without its unit. */
const titleOf = (heading: string): string =>
  heading.replace(/[[(]?\s*°\s?[CF]\s*[\])]?|[[(][CF][\])]|_[CF]\b|\b(fahrenheit|celsius)\b/gi, '').trim()

/**
 * Reads a logger's file. Lines with no time or no number in any column are left out.
 * @param said  what the person says of it
 * Throws: `PlanError` where no times or temperatures are found, or times don't rise.
 */
export function readLog(text: string, said: LogSaid = {}): Log {
  const lines = text
    .replace(/^\uFEFF/, '')
    .split(/\r?\n/)
    .filter((line) => line.trim() !== '')
  if (lines.length < 3) throw fault('fewer than three lines', 'give a file with a heading and readings')
  const divider = said.divider ?? dividerOf(lines)
  const rows = lines.map((line) => line.split(divider).map((cell) => cell.replaceAll('"', '').trim()))
  const isReading = (row: readonly string[]): boolean =>
    row.some((cell) => Number.isFinite(timeOf(cell, divider, 1, false, undefined).s)) &&
    row.some((cell) => Number.isFinite(numberOf(cell, divider)))
  const first = rows.findIndex(
    (row, index) => isReading(row) && (rows[index + 1] === undefined || isReading(rows[index + 1]!)),
  )
  if (first < 0)
    throw fault('no line has a time and a temperature', 'give times in one column, temperatures in another')
  const heading = rows[first - 1] ?? []
  const sample = rows[first]!
  // A column of the clock, where there is one, else one that says so, else the first number.
  const clock = sample.findIndex((cell) => /\d:\d{2}/.test(cell))
  const counted = heading.findIndex((cell) => /time|hour|min|sec|zeit|heure|_h\b/i.test(cell))
  const timeAt =
    clock >= 0 ? clock : counted >= 0 ? counted : sample.findIndex((cell) => Number.isFinite(numberOf(cell, divider)))
  // The date may stand in a column of its own.
  const dateAt = sample.findIndex(
    (cell, index) => index !== timeAt && dateOf(cell, false) !== undefined && !/:/.test(cell),
  )
  const numbers = sample.flatMap((cell, index) =>
    index !== timeAt && index !== dateAt && Number.isFinite(numberOf(cell, divider)) ? [index] : [],
  )
  const named = numbers.filter((index) =>
    /temp|air|probe|core|°\s?[CF]|\[[CF]\]|\([CF]\)|_C\b|_F\b/i.test(heading[index] ?? ''),
  )
  const chosen =
    named.length > 0 ? named : numbers.filter((index) => !/^(no\.?|nr\.?|#|index|line)$/i.test(heading[index] ?? ''))
  if (chosen.length === 0)
    throw fault('no column of temperatures is found', 'give times in one column, temperatures in another')
  const unit = unitOf(heading[timeAt] ?? '')
  const cellOf = (row: readonly string[]): string =>
    dateAt >= 0 ? `${row[dateAt] ?? ''} ${row[timeAt] ?? ''}` : (row[timeAt] ?? '')
  const body = rows.slice(first)
  const times = body.map(cellOf)
  const slashed = times.some((cell) => /\d{1,2}\/\d{1,2}\/\d{2,4}/.test(cell))
  const dayFirst = said.dayFirst ?? daysFirst(times)
  const zone_s = said.zone_h === undefined ? undefined : 3600 * said.zone_h
  const read = body
    .map((row) => ({ time: timeOf(cellOf(row), divider, unit, dayFirst, zone_s), row }))
    .filter(
      ({ time, row }) =>
        Number.isFinite(time.s) && chosen.some((index) => Number.isFinite(numberOf(row[index] ?? '', divider))),
    )
  if (read.length < 2) throw fault('fewer than two readings are found', 'give a file with more of them')
  const start = read[0]!.time
  const alike = read.filter(({ time }) => time.clock === start.clock)
  refuseReadings(
    alike.flatMap(({ time }, index) =>
      time.dated === start.dated
        ? []
        : [
            {
              path: `log, reading ${index + 1}`,
              problem: `its time has ${time.dated ? 'a' : 'no'} date, unlike that of the first`,
              remedy: 'give a date with every time, or with none',
            },
          ],
    ),
  )
  // Times of the clock alone pass midnight.
  let days = 0
  let before = start.s
  const seconds = alike.map(({ time }) => {
    if (time.clock && !time.dated && time.s + days < before - 43_200) days += 86_400
    before = time.s + days
    return before - start.s
  })
  refuseReadings(
    seconds.flatMap((at, index) =>
      index > 0 && at <= seconds[index - 1]!
        ? [
            {
              path: `log, reading ${index + 1}`,
              problem: 'is not later than the one before',
              remedy: 'sort them by time',
            },
          ]
        : [],
    ),
  )
  return {
    divider,
    zoned: start.clock && times.some((cell) => zoneOf(cell) !== undefined),
    ...(slashed ? { dayFirst } : {}),
    seconds,
    ...(start.clock ? (start.dated ? { from: start.s } : { fromClock: start.s }) : {}),
    columns: chosen.map((index, at) => {
      const headed = /°\s?F|\[F\]|\(F\)|_F\b|fahrenheit/i.test(`${heading[index] ?? ''} ${sample[index] ?? ''}`)
      const fahrenheit = said.fahrenheit?.[at] ?? headed
      return {
        title: titleOf(heading[index] ?? ''),
        fahrenheit,
        T_C: alike.map(({ row }) => {
          const value = numberOf(row[index] ?? '', divider)
          return fahrenheit ? ((value - 32) * 5) / 9 : value
        }),
      }
    }),
    gaps: gapsOf(seconds),
  }
}

/**
 * Hours since a plan's start of a log's first line: by its date, by the next such time of the clock, or as counted.
 */
export function logBegins_h({ from, fromClock }: Pick<Log, 'from' | 'fromClock'>, startsAt: string): number {
  const start = localSeconds(startsAt) ?? 0
  if (from !== undefined) return (from - start) / 3600
  if (fromClock === undefined) return 0
  const of = ((start % 86_400) + 86_400) % 86_400
  const later = fromClock - of
  return (later < 0 ? later + 86_400 : later) / 3600
}
