import { PlanError } from '../errors.ts'
import { localSeconds } from '../plan/clock.ts'
import { type Path, valueAt } from '../plan/path.ts'
import type { Plan } from '../plan/schema/plan.ts'

/** One number of a plan, to be read and changed. */
export interface OneNumber {
  /** As in the plan: `piece.fill[0].thickness_mm`; `startsAt` counts hours later than the plan's own start. */
  readonly path: string
  readonly unit: string
  /** What the plan says; undefined where the field is left out. */
  readonly now: number | undefined
  /** The plan with another number there. */
  with(value: number): Plan
  /** Least and greatest that are looked at where nobody says. */
  readonly range: readonly [number, number] | undefined
  /** How closely it is worth knowing. */
  readonly resolution: number
}

const units: readonly (readonly [ending: string, unit: string, resolution: number])[] = [
  ['_mm', 'mm', 0.25],
  ['_C', '°C', 0.1],
  ['_h', 'h', 0.02],
  ['_W_m2K', 'W/(m² K)', 0.05],
  ['_kg', 'kg', 0.05],
  ['_W', 'W', 1],
  ['_pct', '%', 0.1],
]

/** The steps of a path as it is written. */
export function pathOf(text: string): Path {
  const steps = [...text.matchAll(/([^.[\]]+)|\[(\d+)\]/g)].map(([, name, index]) =>
    index === undefined ? name! : Number(index),
  )
  const [first] = steps
  const short = first === 'fill' || first === 'lining' || first === 'shape' || first === 'mould'
  return short ? ['piece', ...steps] : steps
}

/** A copy of a value with something else at a path. */
export function replaced<Value>(value: Value, path: Path, by: unknown): Value {
  const [step, ...rest] = path
  if (step === undefined) return by as Value
  const copy = (Array.isArray(value) ? [...value] : { ...value }) as Record<string | number, unknown>
  copy[step] = replaced(copy[step], rest, by)
  return copy as Value
}

/** Local date and time some seconds after another, to the minute. */
export function laterBy(local: string, seconds: number): string {
  const minutes = Math.round(((localSeconds(local) ?? 0) + seconds) / 60)
  return new Date(minutes * 60_000).toISOString().slice(0, 16)
}

const notFound = (path: string, problem: string): PlanError =>
  new PlanError([
    { path, problem, remedy: 'name a number of the plan, such as fill[0].thickness_mm or stages[0].in.air_C' },
  ])

/** Lengths and hours from a quarter to three times what they are, temperatures 40 K either way. */
function rangeAround(now: number | undefined, unit: string): readonly [number, number] | undefined {
  if (now === undefined) return undefined
  if (unit === '°C') return [now - 40, now + 40]
  return now > 0 ? [now / 4, 3 * now] : undefined
}

/** The number at a path. Throws `PlanError` where the plan has no place for one. */
export function oneNumber(plan: Plan, text: string): OneNumber {
  if (text === 'startsAt')
    return {
      path: text,
      unit: 'h later',
      now: 0,
      with: (hours) => ({ ...plan, startsAt: laterBy(plan.startsAt, 3600 * hours) }),
      range: [-24, 24],
      resolution: 1 / 60,
    }
  const path = pathOf(text)
  const now = valueAt(plan, path)
  if (now !== undefined && typeof now !== 'number') throw notFound(text, 'is no number')
  const holder = valueAt(plan, path.slice(0, -1))
  if (path.length === 0 || typeof holder !== 'object' || holder === null) throw notFound(text, 'is not in the plan')
  const [, unit, resolution] = units.find(([ending]) => text.endsWith(ending)) ?? ['', '', 0.01]
  return {
    path: path.reduce<string>(
      (said, step) => (typeof step === 'number' ? `${said}[${step}]` : said === '' ? step : `${said}.${step}`),
      '',
    ),
    unit,
    now,
    with: (value) => replaced(plan, path, value),
    range: rangeAround(now, unit),
    resolution,
  }
}
