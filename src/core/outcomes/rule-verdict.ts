import type { RuleVerdict } from '../forecast-types.ts'
import type { Place } from '../geometry/body.ts'
import type { Course, PlaceHistory } from '../journey/course.ts'
import { type Message, message } from '../messages.ts'
import { toHours } from '../units.ts'
import { condensedHistory, condensedPlaces } from './condensed.ts'
import { type History, isWorse, type RuleOutcome } from './cooling-rule.ts'
import { along } from './crossing.ts'
import { judgeFall } from './falls.ts'
import { fineFollow, finePlaces } from './fine-history.ts'
import { downAt, lastDown } from './last-down.ts'
import { controlledPlaces } from './meeting.ts'
import { judgeRuleAt, outcomeAt, type RuleAtPlace, type StepAtPlace } from './rule-at-place.ts'
import type { Rule } from './rules.ts'

const answers: Readonly<Record<RuleOutcome, RuleVerdict['answer']>> = {
  pass: 'meets',
  fail: 'does not meet',
  pending: 'not yet',
  'not-started': 'not yet',
  'n/a': 'does not apply',
}

type Outcome = Pick<RuleAtPlace, 'outcome' | 'margin_h'>

/** The place that does worst by a rule. */
interface Worst {
  readonly place: PlaceHistory
  readonly judged: RuleAtPlace
}

const exempt: RuleAtPlace = { outcome: 'n/a', margin_h: Number.POSITIVE_INFINITY, steps: [], reheated: false }

/** Whether a rule asks for the air too, and the air of a course makes a difference to it. */
const asksAir = (rule: Rule, course: Course): boolean =>
  rule.kind === 'zone' && rule.hotAir !== undefined && everHotter(course, rule.hotAir.above_C)

/** Judges one place with the air of the course around it. */
const judgeAt = (rule: Rule, course: Course, history: History): RuleAtPlace =>
  judgeRuleAt(rule, history, asksAir(rule, course) ? { air: airAt(course, history.t) } : {})

/** Whether the air was ever hotter than a limit. */
const everHotter = ({ air_C }: Course, limit_C: number): boolean => air_C.some((T_C) => T_C > limit_C)

/** Air of the course at moments of a history, °C; where something was done, the hotter of before and after. */
function airAt({ t, air_C }: Course, moments: ArrayLike<number>): Float64Array {
  let i = 0
  return Float64Array.from(moments, (at) => {
    while (i < t.length - 1 && t[i + 1]! <= at) i++
    const j = Math.min(i + 1, t.length - 1)
    const later = t[j]! > t[i]! ? along(air_C[i]!, air_C[j]!, t[i]!, t[j]!, at) : air_C[i]!
    return i > 0 && t[i] === t[i - 1] && at === t[i] ? Math.max(later, air_C[i - 1]!) : later
  })
}

function findWorst(course: Course, rule: Rule, controlled: readonly boolean[]): Worst {
  // Where the air counts too, every sample does.
  const withAir = asksAir(rule, course)
  const condensed = withAir ? undefined : condensedPlaces(course, rule)
  const whole = finePlaces(course)
  const outcomeOf = (index: number): Outcome => {
    if (!controlled[index]) return exempt
    const short = condensed?.[index]
    if (short === undefined) return outcomeAt(rule, whole[index]!, { air: airAt(course, whole[index]!.t) })
    return (short.onlyFalls ? judgeFall(rule, short.history) : undefined) ?? outcomeAt(rule, short.history)
  }
  const places = course.places()
  let worst: { readonly index: number; readonly outcome: Outcome } | undefined
  for (let index = 0; index < places.length; index++) {
    const outcome = outcomeOf(index)
    if (worst === undefined || isWorse(outcome, worst.outcome)) worst = { index, outcome }
  }
  if (worst === undefined) throw new Error('a course without places')
  const { index } = worst
  const judged = controlled[index] ? judgeAt(rule, course, condensed?.[index]?.history ?? whole[index]!) : exempt
  return { place: places[index]!, judged }
}

const tightest = (steps: readonly StepAtPlace[], outcome: StepAtPlace['outcome']): StepAtPlace | undefined =>
  steps
    .filter((step) => step.outcome === outcome)
    .sort((a, b) => left(a) - left(b))
    .at(0)

const usedOf = ({ taken_h, at_least_h }: StepAtPlace): number => taken_h ?? at_least_h ?? 0
const left = (step: StepAtPlace): number => step.within_h - usedOf(step)

/** The temperature from which a rule speaks of cooling, or up to which of staying cold. */
function levelOf(rule: Rule): number {
  switch (rule.kind) {
    case 'staged':
      return rule.start_C
    case 'bands':
      return Math.max(...rule.bands.map((band) => band.from_C))
    case 'zone':
      return rule.countsFrom === 'after-cooling' ? rule.low_C : rule.high_C
    case 'hold':
      return rule.cold_C
  }
}

function whyOf(rule: Rule, { place, judged }: Worst): Message {
  const { steps } = judged
  const of = (step: StepAtPlace) => ({
    from_C: step.from_C,
    to_C: step.to_C,
    within_h: step.within_h,
    taken_h: usedOf(step),
  })
  const inside = rule.kind !== 'staged'
  const waits = rule.kind === 'hold' || (rule.kind === 'zone' && rule.countsFrom === 'after-cooling')
  switch (judged.outcome) {
    case 'n/a':
      return message('rule-not-for-this', { start_C: levelOf(rule) })
    case 'not-started':
      return waits
        ? message('rule-not-cold-yet', { cold_C: levelOf(rule) }, place.where)
        : message('rule-clock-waits', { start_C: levelOf(rule) }, place.where)
    case 'pass': {
      const step = tightest(steps, 'pass')
      if (step === undefined) return message('rule-not-for-this', { start_C: levelOf(rule) })
      const values = { ...of(step), margin_h: left(step) }
      if (!inside) return message('rule-kept', values, place.where)
      return message(usedOf(step) > 0 ? 'rule-inside-kept' : 'rule-never-inside', values, place.where)
    }
    case 'pending':
      return message(inside ? 'rule-inside-running' : 'rule-running', of(tightest(steps, 'pending')!), place.where)
    case 'fail': {
      // The first step that fails, as that is where something can be done about it.
      const step = steps.find((one) => one.outcome === 'fail')!
      // Shorter in all than the one spell that is excused: then there was more than one.
      if (rule.kind === 'hold' && usedOf(step) <= step.within_h) return message('rule-spells', of(step), place.where)
      if (inside) return message('rule-inside-over', of(step), place.where)
      return message(step.taken_h === undefined ? 'rule-step-unfinished' : 'rule-step-late', of(step), place.where)
    }
  }
}

function notesOf(rule: Rule, course: Course, controlled: readonly boolean[], { place, judged }: Worst): Message[] {
  const notes: Message[] = []
  if (judged.words !== undefined) notes.push(message('rule-says', { words: judged.words }, place.where))
  if (judged.basis === 'partial') notes.push(message('rule-record-incomplete', { start_C: levelOf(rule) }))
  if (judged.basis === 'analogy') notes.push(message('rule-by-analogy', {}, place.where))
  if (judged.reheated) notes.push(message('rule-reheated', { start_C: levelOf(rule) }))
  if (rule.kind === 'staged' && rule.alternative !== undefined && judged.outcome !== 'n/a') {
    const { words, steps } = rule.alternative
    const other = findWorst(course, { ...rule, steps }, controlled).judged.outcome
    if (answers[other] !== answers[judged.outcome])
      notes.push(message('rule-other-reading', { reading: words, answer: answers[other] }))
  }
  if (controlled.includes(false))
    notes.push(message(controlled.includes(true) ? 'rule-partly-exempt' : 'rule-all-exempt'))
  return notes
}

/** Further from the core than this share of what the piece spans, another place is told apart from it. */
const APART = 0.1

const isApart = (one: Place, other: Place): boolean =>
  Math.max(Math.abs(one.x - other.x), Math.abs(one.y - other.y), Math.abs(one.z - other.z)) > APART

/** The lowest temperature that a rule of cooling asks for; nothing for rules of staying cold or hot. */
function coolsTo(rule: Rule): number | undefined {
  if (rule.kind === 'staged') return rule.steps[rule.steps.length - 1]!.to_C
  return rule.kind === 'bands' ? Math.min(...rule.bands.map(({ to_C }) => to_C)) : undefined
}

/**
 * The last place to come down, told beside the worst one. A place's hours begin when the place itself leaves the rule's
 * start, so the rim, which left it first, may have used the most of them; a probe looks for the last place.
 */
function slowestOf(rule: Rule, course: Course, core: Place): RuleVerdict['slowest'] {
  const to_C = coolsTo(rule)
  const last = to_C === undefined ? undefined : lastDown(course, to_C, 'controlled')
  if (to_C === undefined || last === undefined) return undefined
  const place = course.places()[last]!
  // The core is known between the cells too; where it is the last but for the grid, it is what a probe is put into.
  const atCore = !isApart(place.where, core) && course.describe(core).layer === place.layer
  const history = atCore ? fineFollow(course, core) : finePlaces(course)[last]!
  const { where, layer } = atCore ? { ...place, where: core } : place
  const { outcome, margin_h } = judgeAt(rule, course, history)
  if (outcome === 'n/a') return undefined
  const laid_h = laidAt(course, place)
  return {
    where,
    layer,
    answer: answers[outcome],
    ...(Number.isFinite(margin_h) ? { margin_h } : {}),
    ...cameDown(history, to_C),
    ...(laid_h === undefined ? {} : { laid_h }),
  }
}

/** When a place came down, or what it ends at. */
function cameDown(history: History, to_C: number): { readonly down_h: number } | { readonly last_C: number } {
  const down = downAt(history, to_C)
  return Number.isFinite(down) ? { down_h: toHours(down) } : { last_C: history.T_C[history.T_C.length - 1]! }
}

/** When a place was laid on, h; undefined where it was there from the start. */
const laidAt = ({ t }: Course, place: History): number | undefined =>
  place.t[0]! > t[0]! ? toHours(place.t[0]!) : undefined

/** A layer laid on later that a rule leaves out, where it is the very last to come down. */
function coatOf(rule: Rule, course: Course, controlled: readonly boolean[]): RuleVerdict['coat'] {
  const to_C = coolsTo(rule)
  const last = to_C === undefined ? undefined : lastDown(course, to_C, 'all')
  if (to_C === undefined || last === undefined || controlled[last]) return undefined
  const { where, layer } = course.places()[last]!
  const laid_h = laidAt(course, course.places()[last]!)
  return laid_h === undefined ? undefined : { where, layer, laid_h, ...cameDown(finePlaces(course)[last]!, to_C) }
}

function coatNotes(rule: Rule, coat: RuleVerdict['coat']): Message[] {
  const to_C = coolsTo(rule)
  if (coat === undefined || to_C === undefined) return []
  const { where, down_h, last_C } = coat
  return down_h === undefined
    ? [message('rule-coat-above', { to_C, last_C: last_C! }, where)]
    : [message('rule-coat-down', { to_C, at_h: down_h }, where)]
}

function slowestNotes(rule: Rule, slowest: RuleVerdict['slowest'], worst: Place): Message[] {
  const to_C = coolsTo(rule)
  if (slowest === undefined || to_C === undefined || !isApart(slowest.where, worst)) return []
  const { where, answer, last_C, down_h, laid_h } = slowest
  const laid = laid_h === undefined ? {} : { laid: 'later' }
  return down_h === undefined
    ? [message('rule-slowest-above', { to_C, last_C: last_C!, answer, ...laid }, where)]
    : [message('rule-slowest-down', { to_C, at_h: down_h, answer, ...laid }, where)]
}

/** Any place, judged by a rule: the one that the forecast calls core, or the worst one in another course. */
export const judgeFollowed = (rule: Rule, course: Course, place: Place): RuleAtPlace => {
  const whole = fineFollow(course, place)
  // Where the air counts too, every sample does.
  return judgeAt(rule, course, asksAir(rule, course) ? whole : condensedHistory(whole, rule))
}

/**
 * A course judged by a published rule: every place that needs control, then the worst of them.
 * @param core  the place that the forecast calls core, judged beside the worst one
 */
export function judgeRule(rule: Rule, course: Course, core: Place): RuleVerdict {
  const controlled = controlledPlaces(course)
  const worst = findWorst(course, rule, controlled)
  const { place, judged } = worst
  const notes = notesOf(rule, course, controlled, worst)
  const atCore = judgeFollowed(rule, course, core)
  if (judged.outcome !== 'n/a' && answers[atCore.outcome] !== answers[judged.outcome])
    notes.push(message('rule-core-differs', { answer: answers[atCore.outcome] }, core))
  const applies = judged.outcome !== 'n/a'
  const slowest = applies ? slowestOf(rule, course, core) : undefined
  const coat = applies ? coatOf(rule, course, controlled) : undefined
  notes.unshift(...slowestNotes(rule, slowest, place.where), ...coatNotes(rule, coat))
  return {
    rule: rule.id,
    title: rule.title,
    answer: answers[judged.outcome],
    steps: judged.steps,
    worst: {
      where: place.where,
      layer: place.layer,
      ...(Number.isFinite(judged.margin_h) ? { margin_h: judged.margin_h } : {}),
    },
    core: {
      where: core,
      answer: answers[atCore.outcome],
      ...(Number.isFinite(atCore.margin_h) ? { margin_h: atCore.margin_h } : {}),
    },
    ...(slowest === undefined ? {} : { slowest }),
    ...(coat === undefined ? {} : { coat }),
    why: whyOf(rule, worst),
    notes: [...notes, message('rule-unknown', { measured: rule.measured })],
    source: rule.source,
  }
}
