import { toHours } from '../units.ts'
import type { History, RuleOutcome } from './cooling-rule.ts'
import { along, SAME_K } from './crossing.ts'
import { timeBetween, timeInside } from './danger.ts'
import type { BandRule, HoldRule, ZoneRule } from './rules.ts'

/*
 * Rules that add up the time spent between temperatures, warmings included: bands, zones, and limits for what is held.
 * Time counts strictly inside. What comes before a place is cooked is its coming up and counts for nothing; a later
 * heating does not take back what was counted.
 */

/** Times nearer than this are equal, h. */
const SAME_h = 1e-6
/** Reaching this counts as being cooked, °C, where the rule's upper limit is lower. */
const COOKED_C = 70

/** Time between two temperatures against what is allowed. */
export interface Inside {
  readonly from_C: number
  readonly to_C: number
  readonly within_h: number
  readonly outcome: 'pass' | 'fail' | 'pending' | 'not-started'
  readonly inside_h: number
  readonly margin_h: number
}

/** A place judged by a rule of this kind. */
export interface InsideOutcome {
  readonly outcome: RuleOutcome
  readonly margin_h: number
  readonly parts: readonly Inside[]
  /** What the rule says is to be done, where it has classes. */
  readonly words?: string
  /** Whether the record begins inside, so that earlier time is missing. */
  readonly partial: boolean
}

/** Part of a history from a moment on, s. */
function since({ t, T_C }: History, from: number): History {
  let i = 0
  while (i < t.length && t[i]! < from) i++
  if (i === 0) return { t, T_C }
  const times = [from]
  const temperatures = [along(T_C[i - 1]!, T_C[i]!, t[i - 1]!, t[i]!, from)]
  for (; i < t.length; i++) {
    times.push(t[i]!)
    temperatures.push(T_C[i]!)
  }
  return { t: times, T_C: temperatures }
}

/** The first moment at or above a level (`sign` 1) or at or below it (−1); undefined when there is none. */
function firstReach({ t, T_C }: History, level_C: number, sign: 1 | -1): number | undefined {
  for (let i = 0; i < t.length; i++) {
    if (sign * (T_C[i]! - level_C) < -SAME_K) continue
    return i === 0 ? t[0]! : along(t[i - 1]!, t[i]!, T_C[i - 1]!, T_C[i]!, level_C)
  }
  return undefined
}

/** The history from which a rule with this upper limit counts: from being cooked, where that comes after a cooler start. */
function afterCook(history: History, high_C: number): History {
  if (history.T_C[0]! >= high_C - SAME_K) return history
  const cooked = firstReach(history, Math.max(COOKED_C, high_C), 1)
  return cooked === undefined ? history : since(history, cooked)
}

const insideHours = ({ t, T_C }: History, low_C: number, high_C: number): number =>
  toHours(timeBetween(t, T_C, low_C + SAME_K, high_C - SAME_K))

const lastOf = ({ T_C }: History): number => T_C[T_C.length - 1]!
const highestOf = ({ T_C }: History): number => {
  let highest = Number.NEGATIVE_INFINITY
  for (let i = 0; i < T_C.length; i++) highest = Math.max(highest, T_C[i]!)
  return highest
}

const lowestOf = ({ T_C }: History): number => {
  let lowest = Number.POSITIVE_INFINITY
  for (let i = 0; i < T_C.length; i++) lowest = Math.min(lowest, T_C[i]!)
  return lowest
}

const overrun = (margin_h: number, strict = false): boolean => (strict ? margin_h <= SAME_h : margin_h < -SAME_h)

const worstOf = (parts: readonly Inside[]): number =>
  parts.reduce((least, { margin_h }) => Math.min(least, margin_h), Number.POSITIVE_INFINITY)

/** A place judged by a rule of bands: the time inside each, against what is allowed there. */
export function judgeBands(rule: BandRule, history: History): InsideOutcome {
  const high_C = Math.max(...rule.bands.map((band) => band.from_C))
  const low_C = Math.min(...rule.bands.map((band) => band.to_C))
  const counted = afterCook(history, high_C)
  if (highestOf(counted) <= low_C + SAME_K)
    return { outcome: 'n/a', margin_h: Number.POSITIVE_INFINITY, parts: [], partial: false }
  const last_C = lastOf(counted)
  const parts = rule.bands.map(({ from_C, to_C, within_h }): Inside => {
    const inside_h = insideHours(counted, to_C, from_C)
    const margin_h = within_h - inside_h
    const open = last_C > to_C + SAME_K
    const begun = inside_h > SAME_h || last_C < from_C - SAME_K
    const outcome = overrun(margin_h) ? 'fail' : !open ? 'pass' : begun ? 'pending' : 'not-started'
    return { from_C, to_C, within_h, outcome, inside_h, margin_h }
  })
  const outcome = parts.some((part) => part.outcome === 'fail')
    ? 'fail'
    : last_C <= low_C + SAME_K
      ? 'pass'
      : last_C >= high_C - SAME_K && parts.every((part) => part.inside_h <= SAME_h)
        ? 'not-started'
        : 'pending'
  return { outcome, margin_h: worstOf(parts), parts, partial: isInside(counted.T_C[0]!, low_C, high_C) }
}

const isInside = (T_C: number, low_C: number, high_C: number): boolean => T_C > low_C + SAME_K && T_C < high_C - SAME_K

/** What may change a zone rule's hours beside the place itself. */
export interface ZoneConditions {
  /** Air around the piece at the history's samples, °C; or whether it was hotter than the rule's limit for it. */
  readonly air?: ArrayLike<number> | boolean
}

/** Whether air hotter than a limit was around while the place was inside the zone. */
function metHotAir(rule: ZoneRule, whole: History, from: number, air: ZoneConditions['air']): boolean {
  if (rule.hotAir === undefined || air === undefined) return false
  if (typeof air === 'boolean') return air
  for (let i = 0; i < whole.t.length; i++) {
    if (whole.t[i]! < from || !isInside(whole.T_C[i]!, rule.low_C, rule.high_C)) continue
    if (air[i]! > rule.hotAir.above_C + SAME_K) return true
  }
  return false
}

function hoursAllowed(rule: ZoneRule, counted: History, hot: boolean): number {
  const { within_h, classes, hotAir, coldStart } = rule
  const plain = within_h ?? classes?.findLast(({ below_h }) => below_h !== undefined)?.below_h ?? 0
  if (hot && hotAir !== undefined) return hotAir.within_h
  if (coldStart === undefined || counted.T_C[0]! > rule.low_C + SAME_K) return plain
  return highestOf(counted) <= coldStart.neverAbove_C + SAME_K ? coldStart.within_h : plain
}

/** A place judged by a rule of a zone: all time inside, since it was cooled through or cooked. */
export function judgeZone(rule: ZoneRule, history: History, { air }: ZoneConditions = {}): InsideOutcome {
  const { low_C, high_C, classes } = rule
  const cooledAt = rule.countsFrom === 'after-cooling' ? firstReach(history, low_C, -1) : undefined
  if (rule.countsFrom === 'after-cooling' && cooledAt === undefined)
    return { outcome: 'not-started', margin_h: Number.POSITIVE_INFINITY, parts: [], partial: false }
  const counted = cooledAt === undefined ? afterCook(history, high_C) : since(history, cooledAt)
  const within_h = hoursAllowed(rule, counted, metHotAir(rule, history, counted.t[0]!, air))
  const inside_h = insideHours(counted, low_C, high_C)
  const margin_h = within_h - inside_h
  const open = isInside(lastOf(counted), low_C, high_C)
  // Classes are worded "less than"; limits in hours are inclusive.
  const outcome = overrun(margin_h, classes !== undefined) ? 'fail' : open ? 'pending' : 'pass'
  const found = classes?.find(({ below_h }) => below_h === undefined || inside_h < below_h - SAME_h)
  return {
    outcome,
    margin_h,
    parts: [{ from_C: high_C, to_C: low_C, within_h, outcome, inside_h, margin_h }],
    ...(found === undefined ? {} : { words: found.words }),
    partial: isInside(counted.T_C[0]!, low_C, high_C),
  }
}

/** Lengths of the spells strictly between two temperatures, h. */
function spells({ t, T_C }: History, low_C: number, high_C: number): number[] {
  const found: number[] = []
  let length = 0
  for (let i = 1; i < t.length; i++) {
    length += timeInside(t[i]! - t[i - 1]!, T_C[i - 1]!, T_C[i]!, low_C + SAME_K, high_C - SAME_K)
    if (length > 0 && !isInside(T_C[i]!, low_C, high_C)) {
      found.push(toHours(length))
      length = 0
    }
  }
  if (length > 0) found.push(toHours(length))
  return found.filter((spell) => spell > SAME_h)
}

/**
 * A place judged by limits for what is held: once it has been cooled to the cold limit it stays there, or hot, but for
 * the one spell that the rule excuses. Food that has not come down to the cold limit is still cooling, which other
 * rules judge; food that is hot all the time is held hot.
 */
export function judgeHold(rule: HoldRule, history: History): InsideOutcome {
  const { cold_C, hot_C, spell } = rule
  const within_h = spell?.within_h ?? 0
  const part = (outcome: Inside['outcome'], inside_h: number, margin_h: number): Inside => ({
    from_C: hot_C,
    to_C: cold_C,
    within_h,
    outcome,
    inside_h,
    margin_h,
  })
  const cold = firstReach(history, cold_C, -1)
  if (cold === undefined) {
    const hot = lowestOf(history) >= hot_C - SAME_K
    const outcome = hot ? 'pass' : 'not-started'
    return {
      outcome,
      margin_h: Number.POSITIVE_INFINITY,
      parts: hot ? [part('pass', 0, within_h)] : [],
      partial: false,
    }
  }
  const found = spells(since(history, cold), cold_C, hot_C)
  const inside_h = found.reduce((sum, one) => sum + one, 0)
  const excused = found.length === 1 && spell !== undefined && !overrun(within_h - inside_h, spell.strict)
  const open = isInside(lastOf(history), cold_C, hot_C)
  const outcome = found.length === 0 ? 'pass' : !excused ? 'fail' : open ? 'pending' : 'pass'
  // Of several spells one may be excused: the others are over, however short.
  const longest_h = found.reduce((most, one) => Math.max(most, one), 0)
  const margin_h = found.length > 1 ? Math.min(within_h - longest_h, longest_h - inside_h) : within_h - inside_h
  return { outcome, margin_h, parts: [part(outcome, inside_h, margin_h)], partial: false }
}
