import { boundingBox } from '../geometry/mesh.ts'
import type { Course, PlaceHistory } from '../journey/course.ts'
import type { History } from './cooling-rule.ts'
import { fineFollow, finePlaces } from './fine-history.ts'
import { spansByTemperature, type TurningPoints, turningPoints } from './kinetics/by-temperature.ts'
import type { Level, Mark, Obstacle, SettingLaw } from './kinetics/law.ts'
import { both, either, lasting, type Margin, type Span, spansWhere } from './kinetics/spans.ts'
import { type LayerLaws, layerLaws } from './layer-laws.ts'
import { GRAVITY, standsMargin } from './structure.ts'

/*
 * When every place of a piece is set, firm enough to leave its mould, clean to cut, or lost again: its setting laws
 * integrated along its temperatures, all of them at once, and the ice in it, which holds whatever it freezes.
 */

/** What was found about one place. Marks that no law of its material speaks of are absent. */
export interface PlaceState {
  /** Index into course.places(). */
  readonly index: number
  readonly marks: Readonly<Partial<Record<Mark, readonly Span[]>>>
  readonly obstacle?: Obstacle
  /** How far the law that is behind has got at the end, 0 to 1; absent where no law is named. */
  readonly extent?: number
  /** Of the law that knows its strength, Pa; NaN where the place ends earlier. Shape: as strengthMoments() */
  readonly moduli?: Float64Array
}

/** Harder than this a blade does not go through. */
const TOO_HARD = 0.62
/** Gap that a set mass must leave at its wall to come away, m (choice). */
const GAP = 0.15e-3

/** What stands on a place, and how wide the piece is. */
interface Stand {
  /** Weight of the whole column, Pa. */
  readonly load: number
  /** Half of what the piece spans at its narrowest, m. */
  readonly halfWidth: number
}

const stands = new WeakMap<Course, Stand>()

function standOf(course: Course): Stand {
  const known = stands.get(course)
  if (known !== undefined) return known
  const { mesh } = course.segments[course.segments.length - 1]!
  const [width, height, length] = boundingBox(mesh)
  let mass = 0
  let volume = 0
  for (let cell = 0; cell < mesh.cells; cell++) {
    const layer = mesh.layers[mesh.layerOf[cell]!]
    if (layer === undefined) continue
    mass += mesh.volume[cell]! * layer.material.density
    volume += mesh.volume[cell]!
  }
  const made = { load: (mass / volume) * GRAVITY * height, halfWidth: Math.min(width, length) / 2 }
  stands.set(course, made)
  return made
}

/** What is asked of a law for a mark: its criterion, and what the place must carry or let go. */
function marginOf(law: SettingLaw, mark: Mark, { load, halfWidth }: Stand): Margin | undefined {
  const margin = law.criteria[mark]?.margin
  if (margin === undefined) return undefined
  const { strength, shrink } = law
  if (mark === 'lost' && strength?.alarm !== undefined) {
    const { modulus, failsAt, alarm } = strength
    return (values, T_C) => Math.max(margin(values, T_C), alarm - (failsAt * modulus(values, T_C)) / load)
  }
  if (mark !== 'firm' || (strength === undefined && shrink === undefined)) return margin
  return (values, T_C) => {
    const bears = strength === undefined ? 1 : standsMargin(strength.modulus(values, T_C), strength.failsAt, load)
    const released = shrink === undefined ? 1 : (shrink(values, T_C) * halfWidth) / GAP - 1
    return Math.min(margin(values, T_C), bears, released)
  }
}

const marks: readonly Mark[] = ['set', 'firm', 'cut', 'lost', 'overdone']

/** What laws are followed for beside their marks. */
interface Asked {
  readonly stand: Stand
  /** When the strength is wanted, s, rising. */
  readonly moments: readonly number[]
}

interface LawAlong {
  readonly moduli?: Float64Array
  readonly spans: Readonly<Partial<Record<Mark, readonly Span[]>>>
  readonly obstacle: Obstacle | undefined
  readonly extent: number
}

/** What is asked of a law of temperature alone: its marks in order, and last that it is not too hard for a blade. */
interface ByTemperature {
  readonly marks: readonly Mark[]
  readonly points: TurningPoints
}

const turnings = new WeakMap<SettingLaw, ByTemperature>()

/** Temperatures at which what is asked of a law of temperature alone changes; made once a law. */
function byTemperature(law: SettingLaw): ByTemperature {
  const known = turnings.get(law)
  if (known !== undefined) return known
  const asked = marks.filter((mark) => law.criteria[mark] !== undefined)
  const points = turningPoints([
    ...asked.map((mark) => (T_C: number) => law.criteria[mark]!.margin([], T_C)),
    (T_C: number) => TOO_HARD - law.extent([], T_C),
  ])
  const made = { marks: asked, points }
  turnings.set(law, made)
  return made
}

/** A law of temperature alone along a history, and when it leaves a mass soft enough for a blade. */
function alongTemperature(law: SettingLaw, history: History) {
  const { marks: asked, points } = byTemperature(law)
  const found = spansByTemperature(points, history)
  const last_C = history.T_C[history.T_C.length - 1]!
  const spans = asked.map((mark, at) => [mark, lasting(found[at]!, law.criteria[mark]?.lasting ?? 0)] as const)
  const along: LawAlong = {
    spans: Object.fromEntries(spans),
    obstacle: law.obstacle?.([], last_C),
    extent: law.extent([], last_C),
  }
  return { along, notHard: found[asked.length]! }
}

/** Moments at which a piece may be asked how strong it is, s, rising: where stages begin, before what is done there, and the end. */
export const strengthMoments = ({ stages, t }: Course): readonly number[] => [
  ...stages.map(({ from }) => from),
  t[t.length - 1]!,
]

/** Nearer than this to a moment a sample stands at it, s. */
const SAME_S = 1e-6

/** Whether a sample is the first that tells what is so at a moment: of the two where something was done the earlier one. */
export const isThen = (t: number, moment: number): boolean => t >= moment - SAME_S

/** Fills in the modulus at each of several rising moments, as a law is followed. */
function moduliInto(moduli: Float64Array, { strength }: SettingLaw, moments: readonly number[]) {
  let next = 0
  return (t: number, T_C: number, values: ArrayLike<number>): void => {
    while (next < moments.length && isThen(t, moments[next]!)) moduli[next++] = strength!.modulus(values, T_C)
  }
}

const isByTemperature = (law: SettingLaw): boolean =>
  law.names.length === 0 && law.strength === undefined && law.shrink === undefined

function along(law: SettingLaw, history: History, { stand, moments }: Asked): LawAlong {
  if (isByTemperature(law)) return alongTemperature(law, history).along
  const margins: Margin[] = []
  const asked = marks.flatMap((mark) => {
    const margin = marginOf(law, mark, stand)
    if (margin === undefined) return []
    // Marks that ask the same are followed once.
    if (!margins.includes(margin)) margins.push(margin)
    return [{ mark, at: margins.indexOf(margin) }]
  })
  const moduli = law.strength === undefined ? undefined : new Float64Array(moments.length).fill(Number.NaN)
  const look = moduli === undefined ? undefined : moduliInto(moduli, law, moments)
  const { spans, end } = spansWhere(law, history, margins, look)
  const last_C = history.T_C[history.T_C.length - 1]!
  const found = asked.map(({ mark, at }) => [mark, lasting(spans[at]!, law.criteria[mark]?.lasting ?? 0)] as const)
  return {
    spans: Object.fromEntries(found),
    obstacle: law.obstacle?.(end, last_C),
    extent: law.extent(end, last_C),
    ...(moduli === undefined ? {} : { moduli }),
  }
}

const spansOf = (found: readonly LawAlong[], mark: Mark): (readonly Span[])[] =>
  found.flatMap((one) => (one.spans[mark] === undefined ? [] : [one.spans[mark]]))

/** All of several laws that speak of a mark. */
function together(found: readonly LawAlong[], mark: Mark): readonly Span[] | undefined {
  const spans = spansOf(found, mark)
  return spans.length === 0 ? undefined : spans.reduce((a, b) => both(a, b))
}

/** Any of several laws. */
function anyOf(found: readonly LawAlong[], mark: Mark): readonly Span[] | undefined {
  const spans = spansOf(found, mark)
  return spans.length === 0 ? undefined : spans.reduce((a, b) => either(a, b))
}

/** Where two things may hold a place, either; where only one is known, that one. */
const oneOrOther = (a: readonly Span[] | undefined, b: readonly Span[] | undefined): readonly Span[] | undefined =>
  a === undefined || b === undefined ? (a ?? b) : either(a, b)

const NEVER: readonly Span[] = []
const neverFrozen: LawAlong = { spans: { set: NEVER, firm: NEVER, cut: NEVER }, obstacle: undefined, extent: 0 }

/** The coldest of a history, °C. */
function coldestOf({ T_C }: History): number {
  let coldest = Number.POSITIVE_INFINITY
  for (let i = 0; i < T_C.length; i++) if (T_C[i]! < coldest) coldest = T_C[i]!
  return coldest
}

/** Ice along a history, and when it is not too hard for a blade; quickly told where nothing freezes. */
function iceAlong(ice: SettingLaw, freezes_C: number, history: History) {
  if (coldestOf(history) >= freezes_C) return { frozen: neverFrozen, notHard: undefined }
  const { along: frozen, notHard } = alongTemperature(ice, history)
  return { frozen, notHard }
}

function stateOf(index: number, history: History, layer: LayerLaws, asks: Asked): PlaceState {
  const { laws, ice, solid, material } = layer
  const found = laws.map((law) => along(law, history, asks))
  const moduli = found.find((one) => one.moduli !== undefined)?.moduli
  const obstacle = found.find((one) => one.obstacle !== undefined)?.obstacle
  const { frozen, notHard } =
    ice === undefined ? { frozen: undefined, notHard: undefined } : iceAlong(ice, material.freezes_C ?? 0, history)
  const setsByIce = material.sets?.some(({ by }) => by === 'ice') === true
  const always = solid ? [{ from: history.t[0]!, to: Number.POSITIVE_INFINITY }] : undefined
  const gel = (mark: Mark): readonly Span[] | undefined => together(found, mark) ?? always
  const gelCut = gel('cut')
  const softCut = gelCut === undefined || notHard === undefined ? gelCut : both(gelCut, notHard)
  const marksFound: Partial<Record<Mark, readonly Span[] | undefined>> = {
    set: setsByIce ? oneOrOther(together(found, 'set'), frozen?.spans.set) : together(found, 'set'),
    firm: solid ? always : oneOrOther(gel('firm'), frozen?.spans.firm),
    cut: oneOrOther(softCut, frozen?.spans.cut),
    lost: setsByIce && laws.length === 0 ? frozen?.spans.lost : anyOf(found, 'lost'),
    overdone: anyOf(found, 'overdone'),
  }
  const kept = Object.entries(marksFound).filter(([, spans]) => spans !== undefined)
  return {
    index,
    marks: Object.fromEntries(kept),
    ...(obstacle === undefined ? {} : { obstacle }),
    ...(moduli === undefined ? {} : { moduli }),
    ...(found.length === 0 ? {} : { extent: Math.min(...found.map((one) => one.extent)) }),
  }
}

const known = new WeakMap<Course, readonly PlaceState[]>()

/** The state of every place of a course by its laws' typical parameters, made once. Empty where it has no fields. */
export function placeStates(course: Course): readonly PlaceState[] {
  const made = known.get(course) ?? statesOf(course)
  known.set(course, made)
  return made
}

function statesOf(course: Course): PlaceState[] {
  if (course.segments.length === 0) return []
  const laws = layerLaws(course, 'typical')
  const asks = { stand: standOf(course), moments: strengthMoments(course) }
  const places = course.places()
  return finePlaces(course).flatMap((history, index): PlaceState[] => {
    const own = laws.get(places[index]!.layer)
    return own === undefined ? [] : [stateOf(index, history, own, asks)]
  })
}

type PlaceOfLayer = Pick<PlaceHistory, 'where' | 'layer'>

const asked = new WeakMap<Course, Map<string, PlaceState>>()

/** When a mark holds at one place of a layer, at a level of its laws; undefined where nothing speaks of it there. */
export function spansAt(
  course: Course,
  level: Level,
  mark: Mark,
  { where, layer }: PlaceOfLayer,
): readonly Span[] | undefined {
  const kept = asked.get(course) ?? new Map<string, PlaceState>()
  asked.set(course, kept)
  const key = `${level} ${layer} ${where.x} ${where.y} ${where.z}`
  const state = kept.get(key) ?? stateAt(course, level, { where, layer })
  if (state === undefined) return undefined
  kept.set(key, state)
  return state.marks[mark]
}

function stateAt(course: Course, level: Level, { where, layer }: PlaceOfLayer): PlaceState | undefined {
  const own = layerLaws(course, level).get(layer)
  return own === undefined
    ? undefined
    : stateOf(0, fineFollow(course, where), own, { stand: standOf(course), moments: [] })
}

/** Long enough to tell what comes from what never does, s. */
const PATIENCE = 7 * 24 * 3600

/**
 * Whether a place that is not there at the end of a course would get there, were it left in the air that is around it
 * then. Moment, s, or undefined when it never would.
 */
export function wouldHold(
  course: Course,
  { index }: PlaceState,
  mark: Mark,
  level: Level = 'typical',
): number | undefined {
  const layer = layerLaws(course, level).get(course.places()[index]!.layer)
  if (layer === undefined) return undefined
  const { t, T_C } = finePlaces(course)[index]!
  const end = t[t.length - 1]!
  const air_C = course.air_C[course.air_C.length - 1]!
  const on: History = { t: [...Array.from(t), end, end + PATIENCE], T_C: [...Array.from(T_C), air_C, air_C] }
  const spans = stateOf(index, on, layer, { stand: standOf(course), moments: [] }).marks[mark] ?? []
  return spans.find(({ to }) => to > end)?.from
}
