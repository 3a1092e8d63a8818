import { toHours } from '../units.ts'
import type { History, RuleOutcome } from './cooling-rule.ts'
import { isKept } from './cooling-rule.ts'
import { along, SAME_K } from './crossing.ts'
import type { HoldRule, Rule, StagedRule } from './rules.ts'

/*
 * Most places of a piece that cools only ever fall. What a rule of steps says of such a place needs no episodes: its
 * clock starts where the place passes the rule's start, and each step ends at the one passage of its temperature. The
 * same moments and the same comparisons as in the full judgement, without the records that only the worst place needs.
 */

/** Whether a history never rises. */
export function onlyFalls({ T_C }: History): boolean {
  for (let i = 1; i < T_C.length; i++) if (T_C[i]! > T_C[i - 1]!) return false
  return true
}

/** When a falling history is no longer above a level; its end must be below it. */
function passage({ t, T_C }: History, level_C: number): number {
  let i = 1
  while (i < T_C.length - 1 && T_C[i]! > level_C) i++
  return along(t[i - 1]!, t[i]!, T_C[i - 1]!, T_C[i]!, level_C)
}

interface Outcome {
  readonly outcome: RuleOutcome
  readonly margin_h: number
}

const none: Outcome = { outcome: 'n/a', margin_h: Number.POSITIVE_INFINITY }
const notStarted: Outcome = { outcome: 'not-started', margin_h: Number.POSITIVE_INFINITY }

/** What a rule says of a place that only falls; undefined where the rule is of a kind that adds up hours. */
export function judgeFall(rule: Rule, history: History): Outcome | undefined {
  if (rule.kind === 'staged') return fallByStep(rule, history)
  return rule.kind === 'hold' ? fallHeld(rule, history) : undefined
}

/** Food that falls is held hot, on its way, or cold for good. */
function fallHeld({ cold_C, hot_C, spell }: HoldRule, { T_C }: History): Outcome {
  const last_C = T_C[T_C.length - 1]!
  if (last_C <= cold_C + SAME_K) return { outcome: 'pass', margin_h: spell?.within_h ?? 0 }
  return last_C >= hot_C - SAME_K ? { ...notStarted, outcome: 'pass' } : notStarted
}

function fallByStep({ start_C, steps, neverHot }: StagedRule, history: History): Outcome {
  const { t, T_C } = history
  const first_C = T_C[0]!
  const last_C = T_C[T_C.length - 1]!
  const hot_C = start_C - SAME_K
  const beginsHot = first_C >= hot_C
  if ((neverHot && beginsHot) || first_C <= steps[steps.length - 1]!.to_C + SAME_K) return none
  if (beginsHot && last_C >= hot_C) return notStarted
  const end = t[t.length - 1]!
  const t0 = beginsHot ? passage(history, hot_C) : t[0]!
  let before: number | undefined = t0
  let margin_h = Number.POSITIVE_INFINITY
  let failed = false
  let open = false
  for (const step of steps) {
    const level_C = step.to_C + SAME_K
    const done = first_C <= level_C ? t0 : last_C > level_C ? undefined : Math.max(t0, passage(history, level_C))
    const from = step.clock === 'start' ? t0 : before
    before = done
    // A step after one that isn't done can't have begun.
    if (from === undefined) {
      open = true
      continue
    }
    const left_h = step.within_h - toHours((done ?? end) - from)
    margin_h = Math.min(margin_h, left_h)
    if (!isKept(step, left_h)) failed = true
    else if (done === undefined) open = true
  }
  return { outcome: failed ? 'fail' : open ? 'pending' : 'pass', margin_h }
}
