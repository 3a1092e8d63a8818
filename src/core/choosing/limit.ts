import type { Control } from '../control.ts'
import { Cancelled, ComputeError, PlanError } from '../errors.ts'
import { doneHere, type InParts, type Turn } from '../in-parts.ts'
import { findPlanFaults } from '../plan/read.ts'
import type { OneNumber } from './one-number.ts'
import {
  beheld,
  type Look,
  look,
  type Outcome,
  outcomeIn,
  type Question,
  type Seen,
  type SureOutcome,
} from './question.ts'

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
  /** Stopped before its limits were found to their resolution: what meets it is known up to the value. */
  readonly unfinished?: true
}

export interface LimitAsk {
  readonly end: 'greatest' | 'least'
  readonly from: number
  readonly to: number
  /** Values of the coarse scan; 13 if left out. */
  readonly points?: number
}

const POINTS = 13
/** Share of the work at which the scan is over, and the likely limit found; the rest is its band. */
const SCAN_SHARE = 0.45
const LIMIT_SHARE = 0.6

/** What of each value is known, and how it is come by: a search says which values it wants to know, and goes on. */
type Search<Result> = Generator<readonly number[], Result, void>
type Known = (value: number) => boolean | undefined

/** Values that halving between two may come to, the next first, then those of either outcome. */
function ahead(one: number, other: number, resolution: number, count: number): number[] {
  const brackets: [number, number][] = [[one, other]]
  const values: number[] = []
  for (const [good, bad] of brackets) {
    if (values.length === count) break
    if (Math.abs(bad - good) <= resolution) continue
    const middle = (good + bad) / 2
    values.push(middle)
    brackets.push([middle, bad], [good, middle])
  }
  return values
}

/**
 * The value between two at which a test changes, to a resolution: the last that has the outcome of `inside`.
 * @param atOnce  values that are looked at in a turn, though one would do; the one that is found is the same
 */
function* bisected(inside: number, outside: number, resolution: number, atOnce: number, holds: Known): Search<number> {
  let [good, bad] = [inside, outside]
  while (Math.abs(bad - good) > resolution) {
    const middle = (good + bad) / 2
    if (holds(middle) === undefined) yield ahead(good, bad, resolution, atOnce)
    const held = holds(middle)
    // Stopped: as far as it is known.
    if (held === undefined) return good
    if (held) good = middle
    else bad = middle
  }
  return good
}

/** Searches that want values in the same turns. */
function* sideBySide<Result>(searches: readonly Search<Result>[]): Search<Result[]> {
  const results = new Map<number, Result>()
  while (results.size < searches.length) {
    const wanted: number[] = []
    for (const [index, search] of searches.entries()) {
      if (results.has(index)) continue
      const next = search.next()
      if (next.done === true) results.set(index, next.value)
      else wanted.push(...next.value)
    }
    if (wanted.length > 0) yield wanted
  }
  return searches.map((_, index) => results.get(index)!)
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
  return doneHere(limitInParts(number, question, ask), look, control)
}

/** Values of the number that have been looked at; of a plan that can't be, why. */
interface Looked {
  readonly number: OneNumber
  readonly question: Question
  readonly closely: boolean
  readonly seen: Map<number, Seen | { readonly kind: 'refused'; readonly why: string }>
  /** Something was left undone. */
  unfinished: boolean
}

/** Looks at values, as many as there is an answer for. */
function* lookAt(
  looked: Looked,
  values: readonly number[],
  turn: Omit<Turn<Look>, 'parts'>,
): InParts<Look, Seen, void> {
  const { number, question, closely, seen } = looked
  const plans = [...new Set(values)].flatMap((value) => {
    const plan = number.with(value)
    const [fault] = findPlanFaults(plan)
    if (fault === undefined) return [{ value, plan }]
    seen.set(value, { kind: 'refused', why: `${fault.path}: ${fault.problem}` })
    return []
  })
  const found = yield { ...turn, parts: plans.map(({ plan }) => ({ plan, question, closely })) }
  for (const [index, { value }] of plans.entries()) {
    const one = found[index]
    if (one === undefined) looked.unfinished = true
    else seen.set(value, one)
  }
}

/** Does a search; what it wants to know is looked at in turns. */
function* searched<Result>(
  looked: Looked,
  search: Search<Result>,
  turn: Omit<Turn<Look>, 'parts'>,
): InParts<Look, Seen, Result> {
  let next = search.next()
  for (; next.done !== true; next = search.next()) yield* lookAt(looked, next.value, turn)
  return next.value
}

/** What the likely course of a value answers; undefined where it is not known. */
function likelyAt({ seen }: Looked, value: number): Tried | undefined {
  const one = seen.get(value)
  if (one === undefined || one.kind === 'forecast') return undefined
  if (one.kind === 'outcome') return { value, ...one.outcome }
  const refused = one.kind === 'refused' ? one.why : new ComputeError(one.reason, one.stage, one.at_h).message
  return { value, met: false, refused }
}

/** The same by its forecast. Throws `ComputeError` where that could not be finished. */
function bandedAt({ seen, question }: Looked, value: number): Pick<SureOutcome, 'sure' | 'possible'> | undefined {
  const one = seen.get(value)
  if (one === undefined) return undefined
  return one.kind === 'refused' ? { sure: false, possible: false } : outcomeIn(beheld(one), question)
}

/**
 * The same in parts. Stopped in its scan it is `Cancelled`; later it gives what is known by then.
 * @param atOnce  values that are looked at in a turn, though one may do; what comes out is the same
 */
export function* limitInParts(
  number: OneNumber,
  question: Question,
  ask: LimitAsk,
  atOnce = 1,
): InParts<Look, Seen, Limit> {
  checkAsk(ask, number)
  const { end, from, to, points = POINTS } = ask
  const looked: Looked = { number, question, closely: false, seen: new Map(), unfinished: false }
  const values = Array.from({ length: points }, (_, index) => from + ((to - from) * index) / (points - 1))
  yield* lookAt(looked, values, { doing: 'scan', from: 0, to: SCAN_SHARE })
  if (looked.unfinished) throw new Cancelled()
  const scan = values.flatMap((value) => likelyAt(looked, value) ?? [])
  const usable = scan.filter(({ refused }) => refused === undefined)
  if (usable.length === 0)
    throw new PlanError([
      {
        path: number.path,
        problem: `no value from ${from} to ${to} makes a plan (${scan[0]!.refused})`,
        remedy: 'give another range',
      },
    ])
  const edges = usable.slice(1).flatMap((other, i): { inside: number; outside: number }[] => {
    const one = usable[i]!
    if (one.met === other.met) return []
    return [one.met ? { inside: one.value, outside: other.value } : { inside: other.value, outside: one.value }]
  })
  const each = Math.max(1, Math.floor(atOnce / edges.length))
  const meets: Known = (value) => likelyAt(looked, value)?.met
  const changes = yield* searched(
    looked,
    sideBySide(edges.map(({ inside, outside }) => bisected(inside, outside, number.resolution, each, meets))),
    { doing: 'limit', from: SCAN_SHARE, to: LIMIT_SHARE },
  )
  const outward = end === 'greatest' ? usable : usable.toReversed()
  const last = outward.findLast(({ met }) => met)
  const beyond = last !== undefined && last === outward[outward.length - 1]
  const value = last === undefined ? undefined : beyond ? last.value : end === 'greatest' ? changes.at(-1) : changes[0]
  const closely: Looked = { ...looked, closely: true, seen: new Map() }
  const band =
    value === undefined || looked.unfinished
      ? {}
      : yield* bandOf(
          closely,
          outward.map((tried) => tried.value),
          value,
          end,
          atOnce,
        )
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
    ...(looked.unfinished || closely.unfinished ? { unfinished: true } : {}),
  }
}

/** Limits of the late and of the early end of the band, sought from the likely limit inward and outward. */
function* bandOf(
  looked: Looked,
  outward: readonly number[],
  value: number,
  end: LimitAsk['end'],
  atOnce: number,
): InParts<Look, Seen, Pick<Limit, 'sure' | 'possible'>> {
  const isBeyond = (at: number): boolean => (end === 'greatest' ? at > value : at < value)
  const further = outward.filter(isBeyond)
  const nearer = outward.filter((at) => !isBeyond(at) && at !== value).toReversed()
  const each = Math.max(1, Math.floor(atOnce / 2))
  /** From the likely limit step by step until the test changes, then halved; nothing where that was not come to. */
  const seek = function* (holds: Known): Search<number | undefined> {
    if (holds(value) === undefined) yield [value]
    const outside = holds(value)
    if (outside === undefined) return undefined
    let before = value
    for (const [index, at] of (outside ? further : nearer).entries()) {
      if (holds(at) === undefined) yield (outside ? further : nearer).slice(index, index + each)
      const held = holds(at)
      if (held === undefined) return undefined
      if (held !== outside)
        return yield* held
          ? bisected(at, before, looked.number.resolution, each, holds)
          : bisected(before, at, looked.number.resolution, each, holds)
      before = at
    }
    return outside ? before : undefined
  }
  const [sure, possible] = yield* searched(
    looked,
    sideBySide([seek((at) => bandedAt(looked, at)?.sure), seek((at) => bandedAt(looked, at)?.possible)]),
    { doing: 'band', from: LIMIT_SHARE, to: 1 },
  )
  if (looked.unfinished) return {}
  return { ...(sure === undefined ? {} : { sure }), ...(possible === undefined ? {} : { possible }) }
}
