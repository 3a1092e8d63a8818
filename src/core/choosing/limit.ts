import type { Control } from '../control.ts'
import { ComputeError, PlanError } from '../errors.ts'
import { forecast } from '../forecast.ts'
import { findPlanFaults } from '../plan/read.ts'
import type { OneNumber } from './one-number.ts'
import { type Outcome, outcomeIn, outcomeOf, type Question } from './question.ts'

/** One value that was tried. */
export interface Tried extends Outcome {
  readonly value: number
  /** Why the plan can't have it. */
  readonly refused?: string
}

/** How far one number of a plan may go. */
export interface Limit {
  readonly path: string
  readonly unit: string
  readonly now?: number
  readonly end: 'greatest' | 'least'
  /** The furthest value that still meets what is asked; absent where none does. */
  readonly value?: number
  /** The furthest that the late end of the band meets too; and that the early end does. Absent where none does. */
  readonly sure?: number
  readonly possible?: number
  /** The whole range meets it: the limit lies beyond. */
  readonly beyond: boolean
  /** Whether what meets it lies on one side of one limit. */
  readonly monotone: boolean
  /** Values between which met and not met change, rising. */
  readonly changes: readonly number[]
  /** The coarse scan, rising. */
  readonly scan: readonly Tried[]
}

export interface LimitAsk {
  readonly end: 'greatest' | 'least'
  readonly from: number
  readonly to: number
  /** Values of the coarse scan; 13 if left out. */
  readonly points?: number
}

const POINTS = 13
/** Share of the work that the scan and the likely limit take; the rest is their band. */
const SCAN_SHARE = 0.6

/** The value between two at which a test changes, to a resolution: the last that has the outcome of `inside`. */
function bisected(inside: number, outside: number, resolution: number, holds: (value: number) => boolean): number {
  let [good, bad] = [inside, outside]
  while (Math.abs(bad - good) > resolution) {
    const middle = (good + bad) / 2
    if (holds(middle)) good = middle
    else bad = middle
  }
  return good
}

/** Reads the range that is asked for. Throws `PlanError` where it has no room. */
function checkAsk({ from, to }: LimitAsk, { path }: OneNumber): void {
  if (!(from < to))
    throw new PlanError([
      { path, problem: `nothing lies between ${from} and ${to}`, remedy: 'give a from below the to' },
    ])
}

/**
 * The greatest (or least) value of one number with which the plan still meets what is asked: a coarse scan, then
 * halving between the last that meets it and its neighbour.
 * Throws: `PlanError` where no value of the range makes a plan, `ComputeError`, `Cancelled`.
 */
export function findLimit(number: OneNumber, question: Question, ask: LimitAsk, control: Control = {}): Limit {
  checkAsk(ask, number)
  const { end, from, to, points = POINTS } = ask
  const quiet: Control = control.stopped === undefined ? {} : { stopped: control.stopped }
  const tryValue = (value: number): Tried => {
    const plan = number.with(value)
    const [fault] = findPlanFaults(plan)
    if (fault !== undefined) return { value, met: false, refused: `${fault.path}: ${fault.problem}` }
    try {
      return { value, ...outcomeOf(plan, question, quiet) }
    } catch (error) {
      if (!(error instanceof ComputeError)) throw error
      return { value, met: false, refused: error.message }
    }
  }
  const meets = (value: number): boolean => tryValue(value).met
  const scan = Array.from({ length: points }, (_, index): Tried => {
    control.report?.((SCAN_SHARE * index) / points, 'scan')
    return tryValue(from + ((to - from) * index) / (points - 1))
  })
  const usable = scan.filter(({ refused }) => refused === undefined)
  if (usable.length === 0)
    throw new PlanError([
      {
        path: number.path,
        problem: `no value from ${from} to ${to} makes a plan (${scan[0]!.refused})`,
        remedy: 'give another range',
      },
    ])
  const changes: number[] = []
  for (let i = 1; i < usable.length; i++) {
    const [one, other] = [usable[i - 1]!, usable[i]!]
    if (one.met === other.met) continue
    const inside = one.met ? one.value : other.value
    const outside = one.met ? other.value : one.value
    changes.push(bisected(inside, outside, number.resolution, meets))
  }
  const outward = end === 'greatest' ? usable : usable.toReversed()
  const last = outward.findLast(({ met }) => met)
  const beyond = last !== undefined && last === outward[outward.length - 1]
  const value = last === undefined ? undefined : beyond ? last.value : end === 'greatest' ? changes.at(-1) : changes[0]
  control.report?.(SCAN_SHARE, 'band')
  const band = bandOf(number, question, usable, value, end, control)
  return {
    path: number.path,
    unit: number.unit,
    ...(number.now === undefined ? {} : { now: number.now }),
    end,
    ...(value === undefined ? {} : { value }),
    ...band,
    beyond,
    monotone: changes.length <= 1,
    changes,
    scan,
  }
}

/** Limits of the late and of the early end of the band, sought from the likely limit inward and outward. */
function bandOf(
  number: OneNumber,
  question: Question,
  usable: readonly Tried[],
  value: number | undefined,
  end: LimitAsk['end'],
  control: Control,
): Pick<Limit, 'sure' | 'possible'> {
  const quiet: Control = control.stopped === undefined ? {} : { stopped: control.stopped }
  const known = new Map<number, ReturnType<typeof outcomeIn>>()
  const banded = (at: number) => {
    const outcome = known.get(at) ?? outcomeIn(forecast(number.with(at), quiet), question)
    known.set(at, outcome)
    return outcome
  }
  const values = usable.map((tried) => tried.value)
  const outward = end === 'greatest' ? values : values.toReversed()
  const beyondOf = (at: number): boolean =>
    end === 'greatest' ? at > (value ?? Number.NaN) : at < (value ?? Number.NaN)
  /** From the likely limit step by step until the test changes, then halved. */
  const seek = (holds: (at: number) => boolean): number | undefined => {
    if (value === undefined) return undefined
    const further = outward.filter(beyondOf)
    const nearer = outward.filter((at) => !beyondOf(at) && at !== value).toReversed()
    if (holds(value)) {
      let good = value
      for (const at of further) {
        if (!holds(at)) return bisected(good, at, number.resolution, holds)
        good = at
      }
      return good
    }
    let bad = value
    for (const at of nearer) {
      if (holds(at)) return bisected(at, bad, number.resolution, holds)
      bad = at
    }
    return undefined
  }
  const sure = seek((at) => banded(at).sure)
  control.report?.(0.8, 'band')
  const possible = seek((at) => banded(at).possible)
  return { ...(sure === undefined ? {} : { sure }), ...(possible === undefined ? {} : { possible }) }
}
