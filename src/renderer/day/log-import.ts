import { create } from 'zustand'

import { PlanError } from '../../core/errors.ts'
import { type LogAsk, readingsOfLog } from '../../core/fitting/log-readings.ts'
import { promisesOf } from '../../core/fitting/on-the-day.ts'
import type { Reading } from '../../core/fitting/readings.ts'
import type { Forecast } from '../../core/forecast-types.ts'
import { foundPlaces } from '../../core/plan/checks/asked.ts'
import { type Log, type LogSaid, logBegins_h, readLog } from '../../core/plan/log.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { wallMillis } from '../format-time.ts'
import { zoneClock } from '../zone-clock.ts'

/** The logger's file that questions are asked about; null while there is none. */
export const useLogImport = create<{ readonly text: string | null }>()(() => ({ text: null }))

export const askOfLog = (text: string): void => useLogImport.setState({ text })
export const leaveLog = (): void => useLogImport.setState({ text: null })

/** What the person says of a logger's file, beside what `LogSaid` holds. */
export interface Said extends LogSaid {
  /** The probe of each column, null where it is left out; by its heading where nothing is said. */
  readonly columns?: readonly (string | null)[]
  /** When the first line was read, hours since the plan's start. */
  readonly begins_h?: number
  readonly fast_min?: number
}

/** What comes of a file as it is said to be: what was found in it, and its readings or what is wrong. */
export interface Understood {
  readonly log: Log | null
  readonly columns: readonly (string | null)[]
  readonly readings: readonly Reading[]
  readonly problem: string | null
}

/** Hours by which a zone's clock is before Greenwich at a local date and time; null for none that is known. */
export function zoneHours(zone: string, local: string): number | null {
  try {
    const moment = wallMillis(local) / 1000
    const shown = zoneClock(zone)(moment).replace(' ', 'T')
    return Math.round((wallMillis(shown) / 1000 - moment) / 900) / 4
  } catch {
    return null
  }
}

/** The workshop's clock against Greenwich: by the plan's zone, else by the machine's. */
export const workshopHours = ({ zone, startsAt }: Plan): number =>
  (zone === undefined ? null : zoneHours(zone, startsAt)) ?? -new Date(startsAt).getTimezoneOffset() / 60

/** Places of the plan that a column may be of. */
export const logPlaces = (plan: Plan): readonly string[] => [
  ...(plan.probes ?? []).map(({ name }) => name),
  ...foundPlaces,
]

/** The probe of each column by its heading; of a single column the plan's only probe, else the core. */
function columnsByHeading(plan: Plan, { columns }: Log): (string | null)[] {
  const places = logPlaces(plan)
  const headed = columns.map(
    ({ title }) => places.find((place) => place.trim().toLowerCase() === title.trim().toLowerCase()) ?? null,
  )
  const [first] = plan.probes ?? []
  const only = plan.probes?.length === 1 && first !== undefined ? first.name : 'core'
  return columns.length === 1 && headed[0] === null ? [only] : headed
}

const problemOf = (error: unknown): string => {
  if (!(error instanceof PlanError)) throw error
  // What is wrong with the file as a whole has no place in it.
  const where = (path: string): string => (path === 'log' ? '' : `${path.replace('log, ', '')} `)
  return error.faults.map(({ path, problem, remedy }) => `${where(path)}${problem}: ${remedy}`).join('; ')
}

/** Reads a logger's file as it is said to be. */
export function understand(plan: Plan, text: string, said: Said): Understood {
  const { columns: told, begins_h, fast_min, ...ofFile } = said
  let log: Log | null = null
  let columns: readonly (string | null)[] = []
  try {
    log = readLog(text, { zone_h: workshopHours(plan), ...ofFile })
    columns = told ?? columnsByHeading(plan, log)
    if (columns.every((probe) => probe === null))
      return { log, columns, readings: [], problem: 'Say which column is which probe.' }
    const ask: LogAsk = {
      columns,
      ...(begins_h === undefined ? {} : { begins_h }),
      ...(fast_min === undefined ? {} : { fast_min }),
    }
    return { log, columns, readings: readingsOfLog(plan, log, ask), problem: null }
  } catch (error) {
    return { log, columns, readings: [], problem: problemOf(error) }
  }
}

/** When the first line of a file was read, hours since the plan's start, if nobody says otherwise. */
export const logBegins = (log: Log, plan: Plan): number => logBegins_h(log, plan.startsAt)

/** The plan with a log's readings in place of what it held of the same probes. */
export function withLogReadings(plan: Plan, readings: readonly Reading[], forecast: Forecast): Plan {
  const probes = new Set(readings.map(({ probe }) => probe))
  const others = (plan.readings ?? []).filter(({ probe }) => !probes.has(probe))
  return {
    ...plan,
    // What was promised before anything was measured is what the day is held against.
    promised: plan.promised ?? promisesOf(forecast),
    readings: [...others, ...readings].toSorted((a, b) => a.at_h - b.at_h),
  }
}
