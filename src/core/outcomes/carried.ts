import creams from '../../../shared/structure/creams.json'
import type { CarriedReport } from '../forecast-types.ts'
import { boundingBox, cellsThere, type Mesh, placeOf } from '../geometry/mesh.ts'
import type { Course, PlaceHistory, Segment } from '../journey/course.ts'
import { middleOf } from '../journey/field-reader.ts'
import type { Job } from '../journey/job.ts'
import { message } from '../messages.ts'
import { toHours } from '../units.ts'
import { z } from '../zod.ts'
import type { History } from './cooling-rule.ts'
import { fineFollow, finePlaces } from './fine-history.ts'
import { frozenLaw } from './frozen.ts'
import { getLawKind } from './kinetics/index.ts'
import type { Level, SettingLaw } from './kinetics/law.ts'
import { follow } from './kinetics/spans.ts'
import { layerLaws } from './layer-laws.ts'
import { isThen, placeStates, strengthMoments } from './setting-places.ts'
import { GRAVITY, LOAD_LIMITS, sagOf, slumpOf, standingHeight } from './structure.ts'

/*
 * What each soft layer has to carry, against what it can at the time: when something comes on it, when it leaves its
 * mould, and at the end. While a mould holds it, the wall takes the side thrust and only its top has to be set; free, it
 * stands as a column of its own strength. What is frozen stands by its ice, and is told so without a strength. Creams
 * without a law of strength are told as a warning: their yield stress differs several times from batch to batch.
 */

const yieldRows = z
  .array(
    z.strictObject({
      id: z.string(),
      yield_Pa: z.tuple([z.number().gt(0), z.number().gt(0)]),
      source: z.string(),
      certainty: z.enum(['from memory', 'estimate']),
    }),
  )
  .parse(creams)

/** How deep the top of a layer must be set before something is poured on it, m, and how firm, Pa (choice). */
const SKIN = 0.005
const SKIN_PA = 100

/** Share of the water that is ice from which on a mass stands by its ice (choice: below it counts as soft). */
const STANDS_BY_ICE = 0.5

type Occasion = CarriedReport['occasion']

/** A moment at which a load changes or a mould is taken away, s. */
interface Moment {
  readonly at: number
  readonly occasion: Occasion
  readonly segment: Segment
}

/** Moments that ask something of the layers: pours and coats on them, leaving the mould, and the end. */
function momentsOf(course: Course, job: Job): Moment[] {
  const found: Moment[] = []
  for (const [index, span] of course.stages.entries()) {
    const segment = course.segments.find(({ first, last }) => span.first >= first && span.first <= last)
    if (segment === undefined) continue
    for (const action of job.stages[index]?.start ?? []) {
      if (action.do === 'pour' && index > 0) found.push({ at: span.from, occasion: 'loaded', segment })
      if (action.do === 'unmould') found.push({ at: span.from, occasion: 'unmoulded', segment })
    }
  }
  return [...found, { at: course.t[course.t.length - 1]!, occasion: 'end', segment: course.segments.at(-1)! }]
}

/** A layer as it lies: mean height over the shelf, as a share, and mass, kg of the computed part. */
interface LayerLying {
  readonly name: string
  readonly height: number
  readonly mass: number
}

const lying = new WeakMap<Segment, readonly LayerLying[]>()

/** How the layers of a segment lie, made once. */
function layersIn(segment: Segment): readonly LayerLying[] {
  const made = lying.get(segment) ?? layersOf(segment)
  lying.set(segment, made)
  return made
}

function layersOf({ mesh, turned }: Segment): LayerLying[] {
  const sums = mesh.layers.map(({ name, material }) => ({ name, density: material.density, volume: 0, moment: 0 }))
  for (const cell of cellsThere(mesh)) {
    const sum = sums[mesh.layerOf[cell]!]!
    const { y } = placeOf(mesh, middleOf(mesh, cell))
    sum.volume += mesh.volume[cell]!
    sum.moment += mesh.volume[cell]! * (turned ? 1 - y : y)
  }
  return sums
    .filter(({ volume }) => volume > 0)
    .map(({ name, density, volume, moment }) => ({ name, height: moment / volume, mass: volume * density }))
}

/** Mean level area of a piece, m² of the computed part. */
function levelArea(mesh: Mesh): number {
  const volume = cellsThere(mesh).reduce((sum, cell) => sum + mesh.volume[cell]!, 0)
  return volume / boundingBox(mesh)[1]
}

/** What lies on the foot of a layer, itself included, Pa. */
function loadOn(segment: Segment, layer: string): number {
  const layers = layersIn(segment)
  const own = layers.find(({ name }) => name === layer)
  if (own === undefined) return 0
  const mass = layers.filter(({ height }) => height >= own.height).reduce((sum, one) => sum + one.mass, 0)
  return (mass / levelArea(segment.mesh)) * GRAVITY
}

/** Whether ice holds a place at a moment. */
function heldByIce(ice: SettingLaw | undefined, { t, T_C }: History, { at }: Moment): boolean {
  if (ice === undefined) return false
  let i = 0
  while (i < t.length && !isThen(t[i]!, at)) i++
  return i < t.length && ice.extent([], T_C[i]!) >= STANDS_BY_ICE
}

interface Weakest {
  readonly place: PlaceHistory
  readonly modulus: number
}

/** The weakest place of a layer at each moment, and the weakest of its top. Shape: moments */
function weakestOf(course: Course, layer: string, ice: SettingLaw | undefined, moments: readonly Moment[]) {
  const whole: (Weakest | undefined)[] = moments.map(() => undefined)
  const top: (Weakest | undefined)[] = moments.map(() => undefined)
  const histories = finePlaces(course)
  const asked = strengthMoments(course)
  const positions = moments.map(({ at }) => asked.indexOf(at))
  const own = placeStates(course).flatMap(({ index, moduli }) => {
    const place = course.places()[index]!
    return place.layer === layer && moduli !== undefined ? [{ place, index, moduli }] : []
  })
  const height = boundingBox(course.segments.at(-1)!.mesh)[1]
  const highest = own.reduce((most, { place }) => Math.max(most, place.where.y), 0)
  for (const { place, index, moduli } of own) {
    const isTop = (highest - place.where.y) * height <= SKIN
    for (let m = 0; m < moments.length; m++) {
      const held = heldByIce(ice, histories[index]!, moments[m]!)
      const modulus = held ? Number.POSITIVE_INFINITY : moduli[positions[m]!]!
      if (Number.isNaN(modulus)) continue
      if (whole[m] === undefined || modulus < whole[m]!.modulus) whole[m] = { place, modulus }
      if (isTop && (top[m] === undefined || modulus < top[m]!.modulus)) top[m] = { place, modulus }
    }
  }
  return { whole, top }
}

/** Modulus at a place by another level of its law, Pa. */
function atLevel(course: Course, layer: string, id: string, level: Level, place: PlaceHistory, moment: Moment): number {
  const law = layerLaws(course, level)
    .get(layer)
    ?.laws.find((one) => one.id === id)
  if (law?.strength === undefined) return Number.NaN
  const { modulus } = law.strength
  let found = Number.NaN
  follow(law, fineFollow(course, place.where), (t, T_C, values) => {
    if (Number.isNaN(found) && isThen(t, moment.at)) found = modulus(values, T_C)
  })
  return found
}

/** Layers whose law knows their strength, each moment judged. */
function gels(course: Course, job: Job): CarriedReport[] {
  const moments = momentsOf(course, job)
  const freeFrom = moments.find(({ occasion }) => occasion === 'unmoulded')?.at ?? Number.POSITIVE_INFINITY
  const reports: CarriedReport[] = []
  for (const { name, material, laws } of layerLaws(course, 'typical').values()) {
    const law = laws.find(({ strength }) => strength !== undefined)
    if (law === undefined) continue
    const { failsAt } = law.strength!
    const ice = frozenLaw(material, 'low')
    const { whole, top } = weakestOf(course, name, ice, moments)
    const { source, title: gel, weak } = getLawKind(law.id)
    const unknown = message('setting-weak', { title: gel, weak })
    for (const [m, moment] of moments.entries()) {
      const inMould = moment.at < freeFrom && moment.occasion !== 'unmoulded'
      const found = moment.occasion === 'loaded' && inMould ? top[m] : whole[m]
      const load = loadOn(moment.segment, name)
      if (found === undefined || load <= 0) continue
      const common = { layer: name, title: material.title, occasion: moment.occasion, at_h: toHours(moment.at), source }
      if (found.modulus === Number.POSITIVE_INFINITY) {
        const why = message('carried-frozen', { ice_pct: 100 * STANDS_BY_ICE }, found.place.where)
        const { source: iceSource } = getLawKind('ice')
        const answer = 'carries'
        reports.push({
          ...common,
          where: found.place.where,
          load_Pa: load,
          answer,
          why,
          notes: [message('carried-frozen-weak')],
          source: iceSource,
        })
        continue
      }
      const place = { where: found.place.where, load_Pa: load, modulus_Pa: found.modulus }
      if (moment.occasion === 'loaded' && inMould) {
        const answer = found.modulus >= SKIN_PA ? 'carries' : 'gives way'
        const values = { modulus_kPa: found.modulus / 1000, wanted_kPa: SKIN_PA / 1000, depth_m: SKIN }
        const why = message(answer === 'carries' ? 'carried-skin-set' : 'carried-skin-soft', values, found.place.where)
        reports.push({ ...common, ...place, answer, why, notes: [unknown] })
        continue
      }
      const modulus = (level: Level): number => atLevel(course, name, law.id, level, found.place, moment)
      const factorOf = (G: number): number => (failsAt * G) / load
      const [low, high] = [modulus('low'), modulus('high')]
      const sag = sagOf(load / Math.max(found.modulus, 1e-9))
      const holds = (G: number): boolean =>
        factorOf(G) >= LOAD_LIMITS.unmould.factor && sagOf(load / Math.max(G, 1e-9)) <= LOAD_LIMITS.unmould.sag
      const standing = (G: number): number => standingHeight(failsAt * G, LOAD_LIMITS.unmould.factor, material.density)
      const answer = holds(low) ? 'carries' : holds(found.modulus) ? 'warning' : 'gives way'
      const figures = {
        factor: factorOf(found.modulus),
        low_factor: factorOf(low),
        sag_pct: 100 * sag,
        standing_m: standing(found.modulus),
        low_standing_m: standing(low),
        high_standing_m: standing(high),
        wanted: LOAD_LIMITS.unmould.factor,
        wanted_sag_pct: 100 * LOAD_LIMITS.unmould.sag,
      }
      const code = answer === 'carries' ? 'carried-stands' : answer === 'warning' ? 'carried-may-give' : 'carried-gives'
      reports.push({
        ...common,
        ...place,
        answer,
        factor: figures.factor,
        sag,
        standing_m: figures.standing_m,
        low_standing_m: figures.low_standing_m,
        high_standing_m: figures.high_standing_m,
        why: message(code, figures, found.place.where),
        notes: [...(inMould ? [message('carried-in-mould')] : []), unknown],
      })
    }
  }
  return reports
}

/** Soft creams that nothing sets: how far they slump once free. A warning, never a verdict. */
function slumps(course: Course): CarriedReport[] {
  const segment = course.segments.at(-1)!
  const at = course.t[course.t.length - 1]!
  return segment.mesh.layers.flatMap(({ name, material }): CarriedReport[] => {
    const row = yieldRows.find(({ id }) => id === material.id)
    const laws = layerLaws(course, 'typical').get(name)?.laws ?? []
    if (row === undefined || laws.some(({ strength }) => strength !== undefined)) return []
    const load = loadOn(segment, name)
    if (load <= 0) return []
    const [soft, firm] = row.yield_Pa
    const height = load / (material.density * GRAVITY)
    const [most, least] = [slumpOf(soft, material.density, height), slumpOf(firm, material.density, height)]
    if (most === 0) return []
    const where = course.places().find(({ layer }) => layer === name)?.where
    if (where === undefined) return []
    const values = { soft_Pa: soft, firm_Pa: firm, most_pct: 100 * most, least_pct: 100 * least }
    return [
      {
        layer: name,
        title: material.title,
        occasion: 'end',
        at_h: toHours(at),
        answer: 'warning',
        where,
        load_Pa: load,
        why: message('carried-slumps', values, where),
        notes: [message('carried-slump-weak')],
        source: row.source,
      },
    ]
  })
}

/** What every soft layer carries, and whether it can at the time. Empty where no layer is soft or its strength is not known. */
export function judgeCarried(course: Course, job: Job): CarriedReport[] {
  return course.segments.length === 0 ? [] : [...gels(course, job), ...slumps(course)]
}
