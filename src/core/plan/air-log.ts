import { type Fault, PlanError } from '../errors.ts'
import type { Plan } from './schema.ts'

/*
 * A logger's file of the air as surroundings: read into points [hours, °C] that the plan keeps. Columns may be divided by
 * semicolon, tab or comma; a decimal comma is told from a dividing one by that; times may be of the clock or counted.
 */

/** Most points that a plan keeps of a course. */
const MOST_POINTS = 2000
/** What a thinned course may be off at any reading, K. */
const CLOSE_K = 0.05

export type AirPoint = [number, number]

/** A log as read: hours since its first reading, °C, and what was taken of it. */
export interface AirLog {
  readonly points: readonly AirPoint[]
  readonly readings: number
  readonly fahrenheit: boolean
}

const fault = (problem: string, remedy: string): PlanError => new PlanError([{ path: 'air log', problem, remedy }])

/** The divider that most lines have, and the same number of times. */
function dividerOf(lines: readonly string[]): string {
  const found = [';', '\t', ','].map((divider) => {
    const counts = lines.map((line) => line.split(divider).length)
    const usual = counts.toSorted((a, b) => a - b)[Math.floor(counts.length / 2)]!
    return { divider, lines: usual > 1 ? counts.filter((count) => count === usual).length : 0 }
  })
  const best = found.find(({ lines: alike }) => alike > 0.5 * lines.length)
  if (best === undefined) throw fault('no columns are found', 'divide them by semicolons, tabs or commas')
  return best.divider
}

/** A number with a point, or with a comma where commas don't divide. */
function numberOf(text: string, divider: string): number {
  const bare = text.replace(/[°\s]*[CF]?$/i, '').trim()
  const pointed = divider === ',' ? bare : bare.replace(',', '.')
  return /^[-+]?\d+(\.\d+)?$/.test(pointed) ? Number(pointed) : Number.NaN
}

/** Seconds of a clock time, of a date and time, or of a count in the unit that the heading names; NaN for others. */
function secondsOf(text: string, divider: string, unit: number): number {
  const bare = text.trim()
  const time = /(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)?\s*([ap]m)?/i.exec(bare)
  if (time === null) return unit * numberOf(bare, divider)
  const [, hour = '0', minute = '0', second = '0', half] = time
  const noon = half === undefined ? Number(hour) : (Number(hour) % 12) + (half.toLowerCase() === 'pm' ? 12 : 0)
  const day =
    /(\d{4})-(\d{1,2})-(\d{1,2})/.exec(bare)?.slice(1, 4).map(Number) ??
    /(\d{1,2})\.(\d{1,2})\.(\d{2,4})/.exec(bare)?.slice(1, 4).map(Number).reverse()
  const [year = 1970, month = 1, date = 1] = day ?? []
  return (
    Date.UTC(year < 100 ? 2000 + year : year, month - 1, date) / 1000 +
    3600 * noon +
    60 * Number(minute) +
    Number(second)
  )
}

/** Seconds of one unit of a counted time, by its heading; hours where it says nothing. */
function unitOf(heading: string): number {
  if (/\bsec|\[s\]|\(s\)|_s\b/i.test(heading)) return 1
  return /\bmin|_min/i.test(heading) ? 60 : 3600
}

/** Points enough that straight lines between them are close to every reading; first and last stay. */
function thinned(points: readonly AirPoint[], close_K: number): AirPoint[] {
  const kept = new Set([0, points.length - 1])
  const spans: [number, number][] = [[0, points.length - 1]]
  for (let span = spans.pop(); span !== undefined; span = spans.pop()) {
    const [low, high] = span
    const [from, to] = [points[low]!, points[high]!]
    let worst = low
    let off = close_K
    for (let i = low + 1; i < high; i++) {
      const [t, T_C] = points[i]!
      const line = from[1] + ((to[1] - from[1]) * (t - from[0])) / (to[0] - from[0])
      if (Math.abs(T_C - line) > off) {
        off = Math.abs(T_C - line)
        worst = i
      }
    }
    if (worst === low) continue
    kept.add(worst)
    spans.push([low, worst], [worst, high])
  }
  return points.filter((_, index) => kept.has(index))
}

/**
 * Reads a logger's file of the air: its first column with times, and the first with temperatures after it.
 * Throws: `PlanError` where no times or temperatures are found, or times don't rise.
 */
export function readAirLog(text: string): AirLog {
  const lines = text
    .replace(/^\uFEFF/, '')
    .split(/\r?\n/)
    .filter((line) => line.trim() !== '')
  if (lines.length < 3) throw fault('fewer than three lines', 'give a file with a heading and readings')
  const divider = dividerOf(lines)
  const rows = lines.map((line) => line.split(divider).map((cell) => cell.replaceAll('"', '').trim()))
  const isReading = (row: readonly string[]): boolean =>
    row.some((cell) => Number.isFinite(secondsOf(cell, divider, 1))) &&
    row.filter((cell) => Number.isFinite(numberOf(cell, divider))).length > 0
  const first = rows.findIndex(
    (row, index) => isReading(row) && (rows[index + 1] === undefined || isReading(rows[index + 1]!)),
  )
  if (first < 0)
    throw fault('no line has a time and a temperature', 'give times in one column, temperatures in another')
  const heading = rows[first - 1] ?? []
  const sample = rows[first]!
  // A column of the clock, where there is one, else one that says so, else the first number.
  const clock = sample.findIndex((cell) => cell.includes(':'))
  const counted = heading.findIndex((cell) => /time|hour|min|sec|zeit|heure|_h\b/i.test(cell))
  const timeAt =
    clock >= 0 ? clock : counted >= 0 ? counted : sample.findIndex((cell) => Number.isFinite(numberOf(cell, divider)))
  const temperatures = sample.flatMap((cell, index) =>
    index !== timeAt && Number.isFinite(numberOf(cell, divider)) ? [index] : [],
  )
  const named = temperatures.find((index) =>
    /temp|air|°\s?[CF]|\[[CF]\]|\([CF]\)|_C\b|_F\b/i.test(heading[index] ?? ''),
  )
  const valueAt = named ?? temperatures.at(clock >= 0 || counted >= 0 ? 0 : 0)
  if (valueAt === undefined)
    throw fault('no column of temperatures is found', 'give times in one column, temperatures in another')
  const fahrenheit = /°\s?F|\[F\]|\(F\)|_F\b|fahrenheit/i.test(`${heading[valueAt] ?? ''} ${sample[valueAt] ?? ''}`)
  // The date may stand in a column of its own.
  const dateAt = sample.findIndex((cell) => /^(\d{4}-\d{1,2}-\d{1,2}|\d{1,2}\.\d{1,2}\.\d{2,4})$/.test(cell))
  const unit = unitOf(heading[timeAt] ?? '')
  const read = rows.slice(first).map((row) => {
    const time = dateAt >= 0 && dateAt !== timeAt ? `${row[dateAt]} ${row[timeAt] ?? ''}` : (row[timeAt] ?? '')
    const value = numberOf(row[valueAt] ?? '', divider)
    return { s: secondsOf(time, divider, unit), T_C: fahrenheit ? ((value - 32) * 5) / 9 : value }
  })
  const whole = read.filter(({ s, T_C }) => Number.isFinite(s) && Number.isFinite(T_C))
  // Times of the clock alone pass midnight.
  let day = 0
  const points = whole.map(({ s, T_C }, index): AirPoint => {
    if (clock >= 0 && index > 0 && s < 86_400 && s + day < whole[index - 1]!.s + day - 43_200) day += 86_400
    return [(s + day - whole[0]!.s) / 3600, T_C]
  })
  if (points.length < 2) throw fault('fewer than two readings are found', 'give a file with more of them')
  const faults: Fault[] = points.flatMap(([hour], index) =>
    index > 0 && hour <= points[index - 1]![0]
      ? [
          {
            path: `air log, reading ${index + 1}`,
            problem: 'is not later than the one before',
            remedy: 'sort them by time',
          },
        ]
      : [],
  )
  if (faults.length > 0) throw new PlanError(faults.slice(0, 3))
  let close_K = CLOSE_K
  let kept = thinned(points, close_K)
  while (kept.length > MOST_POINTS) {
    close_K *= 2
    kept = thinned(points, close_K)
  }
  return { points: kept, readings: points.length, fahrenheit }
}

/** The plan with a log as the air of a stage, named or by its number from 1; all else of its surroundings stays. */
export function withAirLog(plan: Plan, stage: string, log: AirLog): Plan {
  const byNumber = /^\d+$/.test(stage) ? Number(stage) - 1 : -1
  const named = plan.stages.findIndex(({ name }) => name === stage)
  const index = named >= 0 ? named : byNumber
  const found = plan.stages[index]
  if (found === undefined) {
    const names = plan.stages.map(({ name }) => `"${name}"`).join(', ')
    throw fault(`there is no stage "${stage}"`, `name one of ${names}`)
  }
  const given = typeof found.in === 'string' ? { like: found.in } : found.in
  const { appliance: _, ...rest } = given
  const logged = { ...found, in: { ...rest, air_C: log.points.map(([hour, T_C]): AirPoint => [hour, T_C]) } }
  return { ...plan, stages: plan.stages.with(index, logged) }
}
