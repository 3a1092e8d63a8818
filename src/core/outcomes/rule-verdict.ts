import type { RuleVerdict } from '../forecast-types.ts'
import type { Place } from '../geometry/body.ts'
import type { Course, PlaceHistory } from '../journey/course.ts'
import { type Message, message } from '../messages.ts'
import {
  type Episode,
  isWorse,
  judgePlace,
  type PlaceOutcome,
  type RuleOutcome,
  type StepResult,
} from './cooling-rule.ts'
import type { RuleStep, StagedRule } from './rules.ts'

const answers: Readonly<Record<RuleOutcome, RuleVerdict['answer']>> = {
  pass: 'meets',
  fail: 'does not meet',
  pending: 'not yet',
  'not-started': 'not yet',
  'n/a': 'does not apply',
}

/** The place that does worst by a rule. */
interface Worst {
  readonly place: PlaceHistory
  readonly judged: PlaceOutcome
}

function findWorst(places: readonly PlaceHistory[], rule: StagedRule): Worst {
  let worst: Worst | undefined
  for (const place of places) {
    const judged = judgePlace(rule, place)
    if (worst === undefined || isWorse(judged, worst.judged)) worst = { place, judged }
  }
  if (worst === undefined) throw new Error('a course without places')
  return worst
}

/** Temperature from which a step's hours count. */
function fromOf({ start_C, steps }: StagedRule, index: number): number {
  return steps[index]!.clock === 'step' && index > 0 ? steps[index - 1]!.to_C : start_C
}

function stepsOf(rule: StagedRule, episode: Episode | undefined): RuleVerdict['steps'] {
  return rule.steps.map((step, index) => {
    const result = episode?.steps[index]
    const { to_C, within_h } = step
    const outcome = result === undefined || result.outcome === 'blocked' ? 'not-started' : result.outcome
    return {
      from_C: fromOf(rule, index),
      to_C,
      within_h,
      outcome,
      ...(result?.elapsed_h === undefined ? {} : { taken_h: result.elapsed_h }),
      ...(result?.atLeast_h === undefined ? {} : { at_least_h: result.atLeast_h }),
    }
  })
}

const tightest = (results: readonly StepResult[], outcome: StepResult['outcome']): StepResult | undefined =>
  results
    .filter((result) => result.outcome === outcome)
    .sort((a, b) => (a.margin_h ?? 0) - (b.margin_h ?? 0))
    .at(0)

function whyOf(rule: StagedRule, { place, judged }: Worst): Message {
  const { worst } = judged
  const of = (step: RuleStep) => ({
    from_C: fromOf(rule, rule.steps.indexOf(step)),
    to_C: step.to_C,
    within_h: step.within_h,
  })
  switch (judged.outcome) {
    case 'n/a':
      return message('rule-not-for-this', { start_C: rule.start_C })
    case 'not-started':
      return message('rule-clock-waits', { start_C: rule.start_C }, place.where)
    case 'pass': {
      const { step, elapsed_h = 0, margin_h = 0 } = tightest(worst!.steps, 'pass')!
      return message('rule-kept', { ...of(step), taken_h: elapsed_h, margin_h }, place.where)
    }
    case 'pending': {
      const { step, atLeast_h = 0 } = tightest(worst!.steps, 'pending')!
      return message('rule-running', { ...of(step), taken_h: atLeast_h }, place.where)
    }
    case 'fail': {
      // The first step that fails, as that is where something can be done about it.
      const { step, elapsed_h, atLeast_h } = worst!.steps.find((result) => result.outcome === 'fail')!
      if (elapsed_h !== undefined) return message('rule-step-late', { ...of(step), taken_h: elapsed_h }, place.where)
      return message('rule-step-unfinished', { ...of(step), taken_h: atLeast_h ?? 0 }, place.where)
    }
  }
}

function notesOf(rule: StagedRule, places: readonly PlaceHistory[], { place, judged }: Worst): Message[] {
  const notes: Message[] = []
  const { worst } = judged
  if (worst?.basis === 'partial') notes.push(message('rule-record-incomplete', { start_C: rule.start_C }))
  if (worst?.basis === 'analogy') notes.push(message('rule-by-analogy', {}, place.where))
  if (worst?.reheated) notes.push(message('rule-reheated', { start_C: rule.start_C }))
  const { alternative } = rule
  if (alternative !== undefined && judged.outcome !== 'n/a') {
    const other = findWorst(places, { ...rule, steps: alternative.steps }).judged.outcome
    if (answers[other] !== answers[judged.outcome])
      notes.push(message('rule-other-reading', { reading: alternative.words, answer: answers[other] }))
  }
  return notes
}

/**
 * A course judged by a published cooling rule: every place, then the worst of them.
 * @param core  the place that the forecast calls core, judged beside the worst one
 */
export function judgeRule(rule: StagedRule, course: Course, core: Place): RuleVerdict {
  const places = course.places()
  const worst = findWorst(places, rule)
  const { place, judged } = worst
  const followed = course.follow(core)
  // A place that is poured later has no temperature before.
  const begins = followed.findIndex((T_C) => !Number.isNaN(T_C))
  const atCore = judgePlace(rule, { t: course.t.subarray(begins), T_C: followed.subarray(begins) })
  const notes = notesOf(rule, places, worst)
  if (answers[atCore.outcome] !== answers[judged.outcome])
    notes.push(message('rule-core-differs', { answer: answers[atCore.outcome] }, core))
  return {
    rule: rule.id,
    title: rule.title,
    answer: answers[judged.outcome],
    steps: stepsOf(rule, judged.worst),
    worst: {
      where: place.where,
      layer: place.layer,
      ...(Number.isFinite(judged.margin_h) ? { margin_h: judged.margin_h } : {}),
    },
    why: whyOf(rule, worst),
    notes,
    source: rule.source,
  }
}
