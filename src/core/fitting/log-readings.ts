import { PlanError } from '../errors.ts'
import { foundPlaces } from '../plan/checks/asked.ts'
import { type Log, logBegins_h, refuseReadings, strangeReading } from '../plan/log.ts'
import type { Plan } from '../plan/schema/plan.ts'
import { LATEST_H, MOST_READINGS, READING_RANGE_C } from '../plan/schema/values.ts'
import { toHours } from '../units.ts'
import type { Reading } from './readings.ts'

export interface LogAsk {
  /** The probe that a log of one column is of. */
  readonly probe?: string
  /** Minutes that the logger's clock is fast. */
  readonly fast_min?: number
  /** The probe of each column, null where it is left out: in place of what the headings say. */
  readonly columns?: readonly (string | null)[]
  /** When the first line was read, hours since the plan's start: in place of what the file says. */
  readonly begins_h?: number
}

const same = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase()

const fault = (problem: string, remedy: string): PlanError => new PlanError([{ path: 'log', problem, remedy }])

/**
 * A log's columns as readings of the plan's probes: by their headings, or the only one by what is asked, else as the
 * plan's only probe, else as the core. Readings from before the plan's start are left out.
 * Throws: `PlanError` where a column can't be told.
 */
export function readingsOfLog(
  plan: Plan,
  log: Log,
  { probe, fast_min = 0, columns: said, begins_h: begun }: LogAsk = {},
): Reading[] {
  const probes = (plan.probes ?? []).map(({ name }) => name)
  const known = [...probes, ...foundPlaces]
  const begins_h = (begun ?? logBegins_h(log, plan.startsAt)) - fast_min / 60
  const columns = log.columns.flatMap((column) => {
    const headed = known.find((name) => same(name, column.title))
    return headed === undefined ? [] : [{ column, probe: headed }]
  })
  const [only] = log.columns
  const chosen =
    said !== undefined
      ? log.columns.flatMap((column, index) => {
          const name = said[index]
          return name == null ? [] : [{ column, probe: name }]
        })
      : probe !== undefined && log.columns.length === 1
        ? [{ column: only!, probe }]
        : probe !== undefined
          ? columns.filter((one) => same(one.probe, probe))
          : columns.length === 0 && log.columns.length === 1
            ? [{ column: only!, probe: probes.length === 1 ? probes[0]! : 'core' }]
            : columns
  if (chosen.length === 0)
    throw fault(
      `its columns (${log.columns.map(({ title }) => `"${title}"`).join(', ')}) are no probes of the plan`,
      `head them ${known.map((name) => `"${name}"`).join(', ')}`,
    )
  if (chosen.some((one) => !known.includes(one.probe)))
    throw fault(`no probe is called "${probe}"`, `name one of ${known.join(', ')}`)
  refuseReadings(
    chosen.flatMap(({ column }) => column.T_C.flatMap((T_C, index) => strangeReading(index, T_C, READING_RANGE_C))),
  )
  const last_h = begins_h + toHours(log.seconds.at(-1)!)
  if (last_h > LATEST_H)
    throw fault('it ends more than a year after the start of the plan', 'check its dates, or the start of the plan')
  const readings = chosen.flatMap(({ column, probe: name }) =>
    log.seconds.flatMap((at, index): Reading[] => {
      const at_h = begins_h + toHours(at)
      const C = column.T_C[index]!
      return Number.isFinite(C) && at_h >= 0 ? [{ probe: name, at_h, C }] : []
    }),
  )
  if (readings.length === 0)
    throw fault('all of it lies before the start of the plan', 'check its dates, or the start of the plan')
  if (readings.length > MOST_READINGS)
    throw fault(`it has ${readings.length} readings`, `a plan can keep ${MOST_READINGS}: leave some lines out`)
  return readings
}
