import type { History } from '../cooling-rule.ts'
import type { SettingLaw } from './law.ts'

/* A law integrated along a history, and when what is asked of it holds. Accuracy: moments to a second or so. */

/** Pieces are cut so fine that what is asked can't be won and lost again unseen. */
const LONGEST_S = 3600
const WIDEST_K = 2
/** Halvings of a part in search of a moment: an hour to a quarter of a second. */
const HALVINGS = 14

/** A stretch of time in which something holds, s; `to` is infinite where it still holds at the end. */
export interface Span {
  readonly from: number
  readonly to: number
}

export type Margin = (values: ArrayLike<number>, T_C: number) => number

/** Follows a law along a history: its values at the start and after every part. Values are overwritten. */
export function follow(
  law: SettingLaw,
  { t, T_C }: History,
  visit: (t: number, T_C: number, values: Float64Array, before: Float64Array) => void,
): Float64Array {
  const values = Float64Array.from(law.start(T_C[0]!))
  const before = Float64Array.from(values)
  visit(t[0]!, T_C[0]!, values, before)
  // What goes by temperature alone changes with it alone.
  const longest = law.names.length === 0 ? Number.POSITIVE_INFINITY : LONGEST_S
  for (let i = 1; i < t.length; i++) {
    const span = t[i]! - t[i - 1]!
    const from = T_C[i - 1]!
    const to = T_C[i]!
    // A jump of the record, where something is done.
    if (span <= 0) {
      visit(t[i]!, to, values, before)
      continue
    }
    const parts = Math.max(1, Math.ceil(span / longest), Math.ceil(Math.abs(to - from) / WIDEST_K))
    for (let part = 1; part <= parts; part++) {
      before.set(values)
      const a = from + ((to - from) * (part - 1)) / parts
      const b = from + ((to - from) * part) / parts
      law.advance(values, a, b, span / parts)
      visit(t[i - 1]! + (span * part) / parts, b, values, before)
    }
  }
  return values
}

/**
 * When each of several margins is not negative along a history; `end` the values at its end.
 * @param look  sees the values on the way
 */
export function spansWhere(
  law: SettingLaw,
  history: History,
  margins: readonly Margin[],
  look?: (t: number, T_C: number, values: ArrayLike<number>) => void,
): { readonly spans: readonly Span[][]; readonly end: Float64Array } {
  const spans = margins.map((): Span[] => [])
  const since: (number | undefined)[] = margins.map(() => undefined)
  const scratch = new Float64Array(law.names.length)
  let lastAt = Number.NaN
  let last_C = Number.NaN
  const end = follow(law, history, (at, T_C, values, before) => {
    for (let m = 0; m < margins.length; m++) {
      const holds = margins[m]!(values, T_C) >= 0
      if (holds === (since[m] !== undefined)) continue
      const moment = at > lastAt ? turn(law, margins[m]!, holds, before, scratch, [lastAt, last_C], [at, T_C]) : at
      if (holds) since[m] = moment
      else {
        spans[m]!.push({ from: since[m]!, to: moment })
        since[m] = undefined
      }
    }
    look?.(at, T_C, values)
    lastAt = at
    last_C = T_C
  })
  for (let m = 0; m < margins.length; m++)
    if (since[m] !== undefined) spans[m]!.push({ from: since[m]!, to: Number.POSITIVE_INFINITY })
  return { spans, end }
}

/** The moment within a part at which a margin changes its sign, by halving. */
function turn(
  law: SettingLaw,
  margin: Margin,
  holdsAfter: boolean,
  before: Float64Array,
  scratch: Float64Array,
  [t0, from_C]: readonly [number, number],
  [t1, to_C]: readonly [number, number],
): number {
  let low = 0
  let high = 1
  for (let pass = 0; pass < HALVINGS; pass++) {
    const middle = (low + high) / 2
    const T_C = from_C + (to_C - from_C) * middle
    scratch.set(before)
    law.advance(scratch, from_C, T_C, (t1 - t0) * middle)
    if (margin(scratch, T_C) >= 0 === holdsAfter) high = middle
    else low = middle
  }
  return t0 + (t1 - t0) * high
}

/** What lasts for so long without a break, from then on. */
export function lasting(spans: readonly Span[], time: number): Span[] {
  return spans.flatMap(({ from, to }) => (to - from >= time ? [{ from: from + time, to }] : []))
}

/** When both hold. */
export function both(a: readonly Span[], b: readonly Span[]): Span[] {
  const found: Span[] = []
  for (let i = 0, j = 0; i < a.length && j < b.length; ) {
    const [one, other] = [a[i]!, b[j]!]
    const from = Math.max(one.from, other.from)
    const to = Math.min(one.to, other.to)
    if (from < to) found.push({ from, to })
    if (one.to < other.to) i++
    else j++
  }
  return found
}

/** When one or the other holds. */
export function either(a: readonly Span[], b: readonly Span[]): Span[] {
  const found: Span[] = []
  for (const { from, to } of [...a, ...b].sort((one, other) => one.from - other.from)) {
    const last = found[found.length - 1]
    if (last !== undefined && from <= last.to) found[found.length - 1] = { from: last.from, to: Math.max(last.to, to) }
    else found.push({ from, to })
  }
  return found
}
