import type { Answer } from '../forecast-types.ts'
import type { Course, PlaceHistory } from '../journey/course.ts'
import { type Message, message } from '../messages.ts'
import { toHours } from '../units.ts'
import { bandValues } from '../words/banded.ts'
import { answerOf } from './answer.ts'
import { getLawKind } from './kinetics/index.ts'
import type { Level, Mark } from './kinetics/law.ts'
import { both, type Span } from './kinetics/spans.ts'
import { setsOf } from './layer-laws.ts'
import { type PlaceState, placeStates, spansAt, wouldHold } from './setting-places.ts'
import type { Target } from './target.ts'

/** What is asked of a whole piece: a mark, and what it is called in a sentence. */
export interface Question {
  readonly mark: Mark
  /** "set", "firm enough to leave its mould". */
  readonly what: string
  readonly material?: string
  /** Times at which something else holds too; absent: always. */
  readonly also?: readonly Span[]
}

/** When a mark holds everywhere. */
interface Whole {
  readonly states: readonly PlaceState[]
  readonly spans: readonly Span[]
}

const ALWAYS: readonly Span[] = [{ from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY }]

const layersOf = (course: Course) => course.segments[course.segments.length - 1]?.mesh.layers ?? []

/** Places that a question is about: those whose material has something to say of the mark. */
function statesFor(course: Course, { mark, material }: Question): readonly PlaceState[] {
  const materials = new Map(layersOf(course).map((layer) => [layer.name, layer.material.id]))
  const places = course.places()
  return placeStates(course).filter(
    (state) =>
      state.marks[mark] !== undefined &&
      (material === undefined || materials.get(places[state.index]!.layer) === material),
  )
}

function wholeOf(course: Course, question: Question): Whole {
  const states = statesFor(course, question)
  const spans = states.reduce<readonly Span[]>(
    (all, { marks }) => (all.length === 0 ? all : both(all, marks[question.mark]!)),
    question.also ?? ALWAYS,
  )
  return { states, spans }
}

/** When a mark holds at every place; undefined where no place has anything to say of it. */
export function spansOfWhole(course: Course, question: Question): readonly Span[] | undefined {
  const { states, spans } = wholeOf(course, question)
  return states.length === 0 ? undefined : spans
}

/** The span that counts: the one that holds when it is asked, else the next one, else the last before. */
export function whichCounts(spans: readonly Span[], by: number | undefined): Span | undefined {
  if (by === undefined) return spans.at(-1)
  return spans.find(({ from, to }) => from <= by && to > by) ?? spans.find(({ from }) => from > by) ?? spans.at(-1)
}

/** A place with the moment at which its mark begins to hold. */
interface Begin {
  readonly place: PlaceHistory
  readonly at: number
}

/** The place that is last to begin with a span of the whole. */
function lastToBegin(course: Course, { states }: Whole, mark: Mark, { from }: Span): Begin {
  const places = course.places()
  let last: Begin | undefined
  for (const { index, marks } of states)
    for (const span of marks[mark]!)
      if (span.from <= from && span.to > from && (last === undefined || span.from > last.at))
        last = { place: places[index]!, at: span.from }
  if (last === undefined) throw new Error('a span of the whole that no place has')
  return last
}

/** Places where something sets; where nothing does, all of them. What is solid as it comes decides nothing. */
function settingOnly(states: readonly PlaceState[]): readonly PlaceState[] {
  const setting = states.filter(({ extent }) => extent !== undefined)
  return setting.length > 0 ? setting : states
}

function firstToBegin(course: Course, { states }: Whole, mark: Mark): Begin | undefined {
  const places = course.places()
  let first: Begin | undefined
  for (const { index, marks } of settingOnly(states)) {
    const span = marks[mark]![0]
    if (span !== undefined && (first === undefined || span.from < first.at))
      first = { place: places[index]!, at: span.from }
  }
  return first
}

/** Of the places that are not there at the end, the one that is furthest behind. */
function furthestBehind({ states }: Whole, mark: Mark): PlaceState {
  const missing = states.filter(({ marks }) => marks[mark]!.at(-1)?.to !== Number.POSITIVE_INFINITY)
  const of = missing.length > 0 ? missing : states
  return of.reduce((behind, state) => {
    if ((state.obstacle === undefined) !== (behind.obstacle === undefined))
      return state.obstacle === undefined ? behind : state
    return (state.extent ?? 1) < (behind.extent ?? 1) ? state : behind
  })
}

const obstacleCodes = {
  'never-dissolved': 'setting-never-dissolved',
  'never-cooked': 'setting-never-cooked',
  'temper-lost': 'setting-temper-lost',
  'never-releases': 'setting-never-releases',
  'acid-breaks-it': 'setting-acid',
} as const

/** Of every layer the place that is last to get there: what is followed where other courses and other levels are asked. */
export type Deciders = readonly Pick<PlaceHistory, 'where' | 'layer'>[]

export function decidersOf(course: Course, question: Question): Deciders {
  const places = course.places()
  const last = new Map<string, Begin>()
  for (const { index, marks } of settingOnly(statesFor(course, question))) {
    const place = places[index]!
    const at = marks[question.mark]!.at(-1)?.from ?? Number.POSITIVE_INFINITY
    if (at > (last.get(place.layer)?.at ?? Number.NEGATIVE_INFINITY)) last.set(place.layer, { place, at })
  }
  return [...last.values()].map(({ place }) => place)
}

/** When a mark holds at all of the deciding places of a course, at a level of the laws. */
export function spansOfDeciders(course: Course, level: Level, question: Question, deciders: Deciders): readonly Span[] {
  return deciders.reduce<readonly Span[]>(
    (all, place) => (all.length === 0 ? all : both(all, spansAt(course, level, question.mark, place) ?? ALWAYS)),
    question.also ?? ALWAYS,
  )
}

/** What rests on which law, what it can't know, and which layers it says nothing of. */
export function restsOn(course: Course, question: Question): Pick<Answer, 'notes' | 'sources'> {
  const judged = new Set(statesFor(course, question).map(({ index }) => course.places()[index]!.layer))
  const notes = new Map<string, Message>()
  const sources = new Set<string>()
  const silent = new Set<string>()
  for (const { name, material } of layersOf(course)) {
    if (question.material !== undefined && material.id !== question.material) continue
    if (!judged.has(name)) silent.add(material.title)
    else
      for (const { by } of setsOf(material)) {
        const { title, source, weak } = getLawKind(by)
        sources.add(`${title}: ${source}`)
        notes.set(by, message('setting-weak', { title, weak }))
      }
  }
  return {
    notes: [
      ...notes.values(),
      ...(silent.size > 0 ? [message('setting-silent', { titles: [...silent].join(', '), what: question.what })] : []),
    ],
    sources: [...sources],
  }
}

/** The answer to a question about every place: when the last one is there, whether it stays, or what is in the way. */
export function answerWhole(target: Target, course: Course, question: Question): Answer {
  const { mark, what } = question
  const whole = wholeOf(course, question)
  const rests = restsOn(course, question)
  if (whole.states.length === 0) {
    const { where, layer } = course.places()[0]!
    const why = message('setting-unknown', { what })
    return { ...answerOf(target, { where, layer, why, otherwise: 'no' }), ...rests }
  }
  const span = whichCounts(whole.spans, target.by)
  const first = firstToBegin(course, whole, mark)
  const begun =
    first === undefined
      ? {}
      : { first: { where: first.place.where, layer: first.place.layer, at_h: toHours(first.at) } }
  if (span === undefined) return { ...notThere(target, course, question, whole), ...begun, ...rests }
  const { where, layer } = lastToBegin(course, whole, mark, span).place
  // The span may begin later than its last place: something else had to come too.
  const at = Math.max(span.from, course.t[0]!)
  const values = { what, at_h: toHours(at), first_h: toHours(first?.at ?? at) }
  const inTime = target.by === undefined || span.to > target.by
  const why = Number.isFinite(span.to)
    ? message('setting-done-then-lost', { ...values, again_h: toHours(span.to) }, where)
    : message('setting-done', values, where)
  return {
    ...answerOf(target, { at, where, layer, why, otherwise: inTime ? 'not yet' : 'no' }),
    ...begun,
    ...rests,
  }
}

function notThere(target: Target, course: Course, { mark, what, also }: Question, whole: Whole): Answer {
  const behind = furthestBehind(whole, mark)
  const { where, layer, T_C } = course.places()[behind.index]!
  const last_C = T_C[T_C.length - 1]!
  const values = { what, last_C, extent_pct: 100 * Math.min(1, Math.max(0, behind.extent ?? 0)) }
  const tell = (why: Message, otherwise: 'no' | 'not yet'): Answer => answerOf(target, { where, layer, why, otherwise })
  if (behind.obstacle !== undefined) return tell(message(obstacleCodes[behind.obstacle], values, where), 'no')
  if (also !== undefined && also.length === 0) return tell(message('coat-never-dry-and-cold', values, where), 'not yet')
  const later = wouldHold(course, behind, mark)
  const air_C = course.air_C[course.air_C.length - 1]!
  if (later === undefined) return tell(message('setting-never', { ...values, air_C }, where), 'no')
  const end = course.t[course.t.length - 1]!
  const more = (level: Level): number | undefined => {
    const at = level === 'typical' ? later : wouldHold(course, behind, mark, level)
    return at === undefined ? undefined : toHours(Math.max(0, at - end))
  }
  const [more_h, soonest_h = more_h, latest_h] = [more('typical')!, more('high'), more('low')]
  // By the laws alone: what would come after the plan has no variants.
  const band = { early_h: soonest_h, ...(latest_h === undefined ? {} : { late_h: latest_h }) }
  return tell(message('setting-not-yet', { ...values, air_C, more_h, ...bandValues('more_h', band) }, where), 'not yet')
}
