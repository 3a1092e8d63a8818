import type { Course } from '../journey/course.ts'
import { COOKED_C, type History } from './cooling-rule.ts'
import { SAME_K } from './crossing.ts'
import { onlyFalls } from './falls.ts'
import { finePlaces } from './fine-history.ts'
import { findRule, type Rule, ruleIds } from './rules.ts'

/*
 * Histories made short for rules. A rule only asks on which side of its few temperatures a place is, and when it passes
 * them: of the samples between two passages it needs none. Both samples of every passage stay, so that every moment and
 * every sum of hours is what the whole history gives.
 */

/** Temperatures that a rule looks at, °C. */
function levelsOf(rule: Rule): number[] {
  switch (rule.kind) {
    case 'staged': {
      const steps = [...rule.steps, ...(rule.alternative?.steps ?? [])]
      return [rule.start_C, COOKED_C, ...steps.map(({ to_C }) => to_C)]
    }
    case 'bands':
      return [COOKED_C, ...rule.bands.flatMap(({ from_C, to_C }) => [from_C, to_C])]
    case 'zone':
      return [COOKED_C, rule.low_C, rule.high_C, ...(rule.coldStart === undefined ? [] : [rule.coldStart.neverAbove_C])]
    case 'hold':
      return [rule.cold_C, rule.hot_C]
  }
}

/** Limits as rules compare with them, °C, rising: what is nearer than `SAME_K` counts as equal. */
const cutsAt = (levels_C: readonly number[]): Float64Array =>
  Float64Array.from(new Set(levels_C.flatMap((level) => [level - SAME_K, level + SAME_K]))).sort()

/** Limits of one rule. */
export const cutsOf = (rule: Rule): Float64Array => cutsAt(levelsOf(rule))

/** The samples of a history at which it passes one of some temperatures, the one before each, and the two ends. */
export function condense({ t, T_C }: History, cuts: Float64Array): History {
  const times: number[] = [t[0]!]
  const temperatures: number[] = [T_C[0]!]
  // The open interval between two cuts in which the history is; on a cut it is in none.
  let low = Number.NaN
  let high = Number.NaN
  const enter = (T: number): void => {
    let above = 0
    while (above < cuts.length && cuts[above]! < T) above++
    low = above > 0 ? cuts[above - 1]! : Number.NEGATIVE_INFINITY
    high = above < cuts.length ? cuts[above]! : Number.POSITIVE_INFINITY
  }
  enter(T_C[0]!)
  const last = t.length - 1
  let kept = 0
  for (let i = 1; i <= last; i++) {
    const T = T_C[i]!
    const passes = !(T > low && T < high)
    if (!passes && i < last) continue
    if (passes && kept < i - 1) {
      times.push(t[i - 1]!)
      temperatures.push(T_C[i - 1]!)
    }
    times.push(t[i]!)
    temperatures.push(T)
    kept = i
    enter(T)
  }
  return { t: times, T_C: temperatures }
}

let published: Float64Array | undefined

/** Cuts of every published rule together. */
function publishedCuts(): Float64Array {
  published ??= cutsAt(ruleIds.flatMap((id) => levelsOf(findRule(id)!)))
  return published
}

/** The history of a place as rules need it. */
export interface Condensed {
  readonly history: History
  readonly onlyFalls: boolean
}

const condensedBy = (course: Course, cuts: Float64Array): Condensed[] =>
  finePlaces(course).map((whole) => {
    const history = condense(whole, cuts)
    return { history, onlyFalls: onlyFalls(history) }
  })

/** Cuts of a rule where they are not among those of the published ones. */
function ownCuts(rule: Rule): Float64Array | undefined {
  if (!ownOf.has(rule)) {
    const cuts = cutsOf(rule)
    ownOf.set(rule, cuts.every((cut) => publishedCuts().includes(cut)) ? undefined : cuts)
  }
  return ownOf.get(rule)
}

const ownOf = new WeakMap<Rule, Float64Array | undefined>()
const shortened = new WeakMap<History, History>()

/** One history as a rule needs it, made once for all that are published. */
export function condensedHistory(whole: History, rule: Rule): History {
  const cuts = ownCuts(rule)
  if (cuts !== undefined) return condense(whole, cuts)
  const made = shortened.get(whole) ?? condense(whole, publishedCuts())
  shortened.set(whole, made)
  return made
}

const known = new WeakMap<Course, readonly Condensed[]>()

/** The history of every place as a rule needs it, made once for all that are published. Shape: as course.places() */
export function condensedPlaces(course: Course, rule: Rule): readonly Condensed[] {
  const cuts = ownCuts(rule)
  if (cuts !== undefined) return condensedBy(course, cuts)
  const made = known.get(course) ?? condensedBy(course, publishedCuts())
  known.set(course, made)
  return made
}
