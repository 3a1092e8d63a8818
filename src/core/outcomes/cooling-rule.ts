import { toHours } from '../units.ts'
import { along, SAME_K } from './crossing.ts'
import type { RuleStep, StagedRule } from './rules.ts'

/*
 * How a place's history is judged by a cooling rule of steps. A history is straight lines between samples. An episode
 * is a longest stretch of time above the rule's last temperature; the rule's clock starts when food that was hot falls
 * below the rule's start, or, if it never was hot, with the episode. A step is done at the *last* passage of its
 * temperature, so a later warming undoes an early pass.
 */

/** Times nearer than this are equal, h. */
const SAME_h = 1e-6
/** Reaching this from below counts as being cooked, °C, where the rule starts lower. */
export const COOKED_C = 70

export type StepOutcome = 'pass' | 'fail' | 'pending' | 'blocked'
export type RuleOutcome = 'pass' | 'fail' | 'pending' | 'not-started' | 'n/a'

/** Where the clock of an episode starts: by the rule; with the record, which begins in the zone; or by analogy, warmed from the cold. */
export type Basis = 'rule' | 'partial' | 'analogy'

export interface StepResult {
  readonly step: RuleStep
  readonly outcome: StepOutcome
  /** h; absent while the step isn't done. */
  readonly elapsed_h?: number
  /** h used so far, where the step isn't done. */
  readonly atLeast_h?: number
  /** Allowed minus elapsed, h; at most this where the step isn't done. Absent when blocked. */
  readonly margin_h?: number
}

export interface Episode {
  readonly basis: Basis
  readonly outcome: RuleOutcome
  /** h, on the history's own clock; absent while the clock hasn't started. */
  readonly t0_h?: number
  readonly steps: readonly StepResult[]
  /** Above the start temperature again after the clock started. */
  readonly reheated: boolean
}

export interface PlaceOutcome {
  readonly outcome: RuleOutcome
  readonly episodes: readonly Episode[]
  /** The episode that decides; absent when none is judged. */
  readonly worst?: Episode
  /** Smallest margin of the deciding episode, h; infinite where there is none. */
  readonly margin_h: number
}

/** A place's temperature, straight lines between samples. */
export interface History {
  /** s. Shape: samples */
  readonly t: ArrayLike<number>
  /** °C. Shape: samples */
  readonly T_C: ArrayLike<number>
}

/** Worst first. */
const order: readonly RuleOutcome[] = ['fail', 'pending', 'not-started', 'pass', 'n/a']

/** Whether one outcome (with its margin) is worse than another. */
export function isWorse(
  one: { readonly outcome: RuleOutcome; readonly margin_h: number },
  other: { readonly outcome: RuleOutcome; readonly margin_h: number },
): boolean {
  const places = order.indexOf(one.outcome) - order.indexOf(other.outcome)
  return places < 0 || (places === 0 && one.margin_h < other.margin_h)
}

/** Samples of an episode: all are above the last temperature, the one before and the one after are not. */
interface Stretch {
  readonly first: number
  readonly last: number
}

function stretchesAbove(T_C: ArrayLike<number>, level_C: number): Stretch[] {
  const stretches: Stretch[] = []
  let first = -1
  for (let i = 0; i <= T_C.length; i++) {
    const above = i < T_C.length && T_C[i]! > level_C
    if (above && first < 0) first = i
    if (!above && first >= 0) {
      stretches.push({ first, last: i - 1 })
      first = -1
    }
  }
  return stretches
}

/** Index of the first sample from `from` to the one after the stretch that is below a level; −1 if none is. */
function firstBelow(T_C: ArrayLike<number>, from: number, last: number, level_C: number): number {
  for (let i = from; i <= last + 1 && i < T_C.length; i++) if (T_C[i]! < level_C) return i
  return -1
}

/** Index of the last sample of a stretch above a level; −1 if none is. */
function lastAbove(T_C: ArrayLike<number>, { first, last }: Stretch, level_C: number): number {
  for (let i = last; i >= first; i--) if (T_C[i]! > level_C) return i
  return -1
}

/** Whether so much left of a step's hours keeps it. */
export const isKept = ({ strict }: Pick<RuleStep, 'strict'>, margin_h: number): boolean =>
  strict ? margin_h > SAME_h : margin_h >= -SAME_h

function judgeStep(step: RuleStep, from: number | null, done: number | null, end: number): StepResult {
  if (from === null) return { step, outcome: 'blocked' }
  const elapsed_h = toHours((done ?? end) - from)
  const margin_h = step.within_h - elapsed_h
  const kept = isKept(step, margin_h)
  if (done === null) return { step, outcome: kept ? 'pending' : 'fail', atLeast_h: elapsed_h, margin_h }
  return { step, outcome: kept ? 'pass' : 'fail', elapsed_h, margin_h }
}

function outcomeOf(steps: readonly StepResult[]): RuleOutcome {
  if (steps.some((step) => step.outcome === 'fail')) return 'fail'
  return steps.every((step) => step.outcome === 'pass') ? 'pass' : 'pending'
}

function judgeEpisode(
  { start_C, steps }: Pick<StagedRule, 'start_C' | 'steps'>,
  { t, T_C }: History,
  stretch: Stretch,
  afterCooling: boolean,
): Episode {
  const { first, last } = stretch
  const passage = (i: number, level_C: number): number => along(t[i - 1]!, t[i]!, T_C[i - 1]!, T_C[i]!, level_C)
  const hot_C = start_C - SAME_K
  const cooked_C = Math.max(COOKED_C, start_C) - SAME_K
  const beginsHot = first === 0 && T_C[0]! >= hot_C
  let hotAt = beginsHot ? first : -1
  for (let i = first; i <= last && hotAt < 0; i++) if (T_C[i]! >= cooked_C) hotAt = i

  if (hotAt < 0 && afterCooling) return { basis: 'analogy', outcome: 'n/a', steps: [], reheated: false }
  let basis: Basis = 'rule'
  let t0: number
  let started = first
  if (hotAt >= 0) {
    const below = firstBelow(T_C, hotAt + 1, last, hot_C)
    if (below < 0) return { basis, outcome: 'not-started', steps: [], reheated: false }
    t0 = passage(below, hot_C)
    started = below
  } else {
    basis = first === 0 ? 'partial' : 'analogy'
    t0 = first === 0 ? t[0]! : passage(first, lastOf(steps).to_C + SAME_K)
  }
  let reheated = false
  for (let i = started; i <= last && !reheated; i++) reheated = T_C[i]! >= hot_C

  const end = t[t.length - 1]!
  let before: number | null = t0
  const results = steps.map((step) => {
    const at = lastAbove(T_C, stretch, step.to_C + SAME_K)
    const done = at < 0 ? t0 : at + 1 < t.length ? Math.max(t0, passage(at + 1, step.to_C + SAME_K)) : null
    const result = judgeStep(step, step.clock === 'start' ? t0 : before, done, end)
    before = done
    return result
  })
  return { basis, outcome: outcomeOf(results), t0_h: toHours(t0), steps: results, reheated }
}

const lastOf = (steps: readonly RuleStep[]): RuleStep => steps[steps.length - 1]!

const marginOf = ({ steps }: Episode): number =>
  steps.reduce((least, { margin_h }) => Math.min(least, margin_h ?? Number.POSITIVE_INFINITY), Number.POSITIVE_INFINITY)

/**
 * Judges one place by a cooling rule. Limits are inclusive unless the step is strict; a step's margin is allowed minus
 * elapsed hours. Food that was cooled once and is warmed again without being cooked is out of these rules.
 */
export function judgePlace(rule: Pick<StagedRule, 'start_C' | 'steps' | 'neverHot'>, history: History): PlaceOutcome {
  const { T_C } = history
  const none: PlaceOutcome = { outcome: 'n/a', episodes: [], margin_h: Number.POSITIVE_INFINITY }
  if (rule.neverHot) for (let i = 0; i < T_C.length; i++) if (T_C[i]! >= rule.start_C - SAME_K) return none
  const episodes: Episode[] = []
  for (const stretch of stretchesAbove(T_C, lastOf(rule.steps).to_C + SAME_K))
    episodes.push(judgeEpisode(rule, history, stretch, episodes.length > 0))
  let found: PlaceOutcome = { outcome: 'n/a', episodes, margin_h: Number.POSITIVE_INFINITY }
  for (const episode of episodes) {
    if (episode.outcome === 'n/a') continue
    const margin_h = marginOf(episode)
    if (isWorse({ outcome: episode.outcome, margin_h }, found))
      found = { outcome: episode.outcome, episodes, worst: episode, margin_h }
  }
  return found
}
