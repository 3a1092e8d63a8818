import type { CarriedReport } from '../forecast-types.ts'
import type { Layer } from '../geometry/layer.ts'
import type { Course } from '../journey/course.ts'
import type { Job } from '../journey/job.ts'
import { type Message, message } from '../messages.ts'
import { finePlaces } from './fine-history.ts'
import type { SettingLaw } from './kinetics/law.ts'
import { type Margin, type Span, spansWhere } from './kinetics/spans.ts'
import { layerLaws } from './layer-laws.ts'
import { placeRanges } from './place-ranges.ts'
import { placeStates } from './setting-places.ts'
import { LOAD_LIMITS } from './structure.ts'

/*
 * Warnings of a piece that may not stand: a heavy layer on a soft light one, a mass that bears itself but not the way
 * to the shop, a crumb that falls in. Warnings only: neither the turning over of layers, nor shocks on the way, nor the
 * tearing of a crumb is computed.
 */

/** Denser by less than this makes no layers change places. */
const DENSER = 1.02

const isHeldAt = (spans: readonly Span[] | undefined, at: number): boolean =>
  spans?.some(({ from, to }) => from <= at && to > at) ?? false

/** Whether a layer is still soft somewhere at a moment: neither solid as it comes, nor set or frozen everywhere. */
function isSoft(course: Course, layer: string, at: number): boolean {
  const laws = layerLaws(course, 'typical').get(layer)
  if (laws === undefined || laws.solid) return false
  const places = course.places()
  return placeStates(course).some(
    ({ index, marks }) => places[index]!.layer === layer && !isHeldAt(marks.set, at) && !isHeldAt(marks.firm, at),
  )
}

/** A layer as it comes upon the one below, s. */
interface Laid {
  readonly layer: Layer
  readonly at: number
}

/** Layers from the bottom up, with the moment at which each is laid; empty where the piece is turned over between. */
function laidUpward(job: Job, course: Course): Laid[] {
  const actions = job.stages.map(({ start }) => start)
  if (actions.flat().some((action) => action.do === 'turn')) return []
  const poured = actions.flatMap((start, index) =>
    start.flatMap((action): Laid[] =>
      action.do === 'pour' ? [{ layer: action.layer, at: course.stages[index]?.from ?? 0 }] : [],
    ),
  )
  return [...job.fill.map((layer): Laid => ({ layer, at: course.t[0]! })), ...poured]
}

/** Denser layers on soft lighter ones, which may change places. */
function densityOrder(job: Job, course: Course): Message[] {
  const laid = laidUpward(job, course)
  return laid.flatMap(({ layer, at }, index) => {
    const below = laid[index - 1]?.layer
    if (below === undefined || layer.material.density <= DENSER * below.material.density) return []
    if (layerLaws(course, 'typical').get(layer.name)?.solid === true || !isSoft(course, below.name, at)) return []
    return [
      message('caution-density-order', {
        upper: layer.material.title,
        lower: below.material.title,
        upper_kg_m3: layer.material.density,
        lower_kg_m3: below.material.density,
      }),
    ]
  })
}

/** Layers that stand at the end of the plan, but not with what a way asks for. */
const carriedAbout = (carried: readonly CarriedReport[]): Message[] =>
  carried.flatMap(({ occasion, answer, title, factor, sag }) => {
    if (occasion !== 'end' || answer === 'gives way' || factor === undefined || sag === undefined) return []
    const { transport } = LOAD_LIMITS
    if (factor >= transport.factor && sag <= transport.sag) return []
    const asked = { wanted: transport.factor, wanted_sag_pct: 100 * transport.sag }
    return [message('caution-transport', { title, factor, sag_pct: 100 * sag, ...asked })]
  })

/** Hotter than this somewhere a batter was being baked, °C. */
const BAKES_C = 60
/** Set this far as it begins to cool, a crumb bears itself; so far it is batter still, so far a crust (choice). */
const BEARS = 0.8
const BATTER = 0.5
const CRUST = 0.95
/** A crust that stands so long over so much batter tears or domes, s and share of the volume (choice). */
const CRUST_S = 1800
const MUCH = 0.25
/** Places that are looked at of a layer: more tell no more. */
const LOOKED_AT = 80
const BAKED_BY: ReadonlySet<string> = new Set(['batter-starch', 'dough-starch'])

/** When a place is batter no more, bears itself, is crust; infinite where it never is, s. */
interface Baking {
  readonly volume: number
  readonly sets: number
  readonly bears: number
  readonly crust: number
  /** Begins to cool, s. */
  readonly cools: number
}

function bakingOf(course: Course, law: SettingLaw, index: number): Baking {
  const history = finePlaces(course)[index]!
  const { t, T_C } = history
  let top = 0
  for (let i = 1; i < t.length; i++) if (T_C[i]! > T_C[top]!) top = i
  const reaches =
    (share: number): Margin =>
    (values, T) =>
      law.extent(values, T) - share
  const { spans } = spansWhere(law, history, [reaches(BATTER), reaches(BEARS), reaches(CRUST)])
  const [sets, bears, crust] = spans.map((own) => own[0]?.from ?? Number.POSITIVE_INFINITY)
  const cools = top === t.length - 1 ? Number.POSITIVE_INFINITY : t[top]!
  return { volume: course.places()[index]!.volume, sets: sets!, bears: bears!, crust: crust!, cools }
}

/** Crumbs that begin to cool before they bear themselves, and crusts over much batter. */
function collapses(course: Course): Message[] {
  const { hottest_C } = placeRanges(course)
  const places = course.places()
  return [...layerLaws(course, 'typical').values()].flatMap(({ name, material, laws }) => {
    const law = laws.find(({ id }) => BAKED_BY.has(id))
    const own = places.flatMap(({ layer }, index) => (layer === name ? [index] : []))
    if (law === undefined || !own.some((index) => hottest_C[index]! > BAKES_C)) return []
    const stride = Math.max(1, Math.floor(own.length / LOOKED_AT))
    const found = own.filter((_, i) => i % stride === 0).map((index) => bakingOf(course, law, index))
    const told: Message[] = []
    if (found.some(({ cools, bears }) => bears > cools))
      told.push(message('caution-collapse', { title: material.title, bears_pct: 100 * BEARS }))
    const crusted = found.reduce((first, { crust }) => Math.min(first, crust), Number.POSITIVE_INFINITY) + CRUST_S
    const whole = found.reduce((sum, { volume }) => sum + volume, 0)
    const batter = found.reduce((sum, { volume, sets }) => sum + (sets > crusted ? volume : 0), 0)
    if (Number.isFinite(crusted) && batter > MUCH * whole)
      told.push(message('caution-domes', { title: material.title, batter_pct: (100 * batter) / whole }))
    return told
  })
}

/** What may not stand: order of densities, the way to the shop, a crumb that falls in. Empty without fields. */
export function standingCautions(job: Job, course: Course, carried: readonly CarriedReport[]): Message[] {
  if (course.segments.length === 0) return []
  return [...densityOrder(job, course), ...carriedAbout(carried), ...collapses(course)]
}
