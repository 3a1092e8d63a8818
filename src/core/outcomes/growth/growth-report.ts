import type { GrowthReport } from '../../forecast-types.ts'
import type { Place } from '../../geometry/body.ts'
import { cellAt, cellsThere, locate } from '../../geometry/mesh.ts'
import type { Course } from '../../journey/course.ts'
import { message } from '../../messages.ts'
import type { History } from '../cooling-rule.ts'
import { finePlaces } from '../fine-history.ts'
import { type Meeting, meetings } from '../meeting.ts'
import { placeRanges } from '../place-ranges.ts'
import { awShare, exposure, exposureWithin, growthLog10, pHShare } from './growth-law.ts'
import { type Organism, organisms } from './organisms.ts'

/*
 * The place where each organism may grow most. Nothing is decided on these figures: they are shown in half powers of
 * ten beside a yardstick, with the span that lag alone makes. Where a mass lies outside what the figures were measured
 * in, nothing is computed and that is said.
 */

/** Below this water activity none of the organisms grows. Source: limits in shared/growth/organisms.json. */
const NOTHING_GROWS_AW = 0.8
/** Straight lines lie nearer than this to the samples, K. */
const ROOM_K = 0.5
/** Share of the exposure that may come from temperatures outside what was measured. */
const OUTSIDE_SHARE = 0.2

/** What is left of the best rate at a place; undefined where its mass lies outside what was measured. */
function shareAt(organism: Organism, { keepings }: Meeting): number | undefined {
  const named = keepings.filter((one) => one !== undefined)
  // The wetter of the masses that meet; water activity and pH that nobody gave slow nothing.
  const aw = named.length < keepings.length ? 1 : Math.max(...named.map((one) => one.aw[1]))
  const acids = named.map((one) => one.pH?.[1])
  const pH = acids.length < keepings.length || acids.includes(undefined) ? undefined : Math.max(...(acids as number[]))
  const { validity } = organism
  if (aw < NOTHING_GROWS_AW || aw <= organism.aw.min) return 0
  if (aw < validity.aw[0]) return undefined
  if (pH !== undefined && pH <= organism.pH.min) return 0
  if (pH !== undefined && (pH < validity.pH[0] || pH > validity.pH[1])) return undefined
  return awShare(aw, organism) * (pH === undefined ? 1 : pHShare(pH, organism))
}

/** Whether an organism is to be looked for at a place at all. */
function comesTo({ comes }: Organism, { keepings, handled }: Meeting): boolean {
  if (comes === 'spores') return true
  return handled || (comes === 'egg' && keepings[0]?.egg !== undefined)
}

/** Whether so much of a place's exposure comes from outside the measured temperatures that it can't be told. */
function isOutside(organism: Organism, history: History): boolean {
  const all = exposure(organism, history)
  const [low, high] = organism.validity.T_C
  return all - exposureWithin(organism, history, [low, high]) > OUTSIDE_SHARE * all
}

/** The exposure of a place; 0 where the organism does not come to, undefined where it can't be told. */
export function exposureAt(organism: Organism, course: Course, index: number): number | undefined {
  const meeting = meetings(course)[index]!
  if (!comesTo(organism, meeting)) return 0
  const share = shareAt(organism, meeting)
  if (share === undefined || share === 0) return share
  const { coldest_C, hottest_C } = placeRanges(course)
  const { min, max } = organism.T_C
  // Always too cold or too hot, with room for how lines lie about the samples.
  if (hottest_C[index]! < min - ROOM_K || coldest_C[index]! > max + ROOM_K) return 0
  return share * exposure(organism, finePlaces(course)[index]!)
}

interface Found {
  readonly A: number
  readonly index: number
}

/** The place with the largest exposure; `unknown` when some place could not be computed. */
function largest(organism: Organism, course: Course): { readonly found: Found | undefined; readonly unknown: boolean } {
  let found: Found | undefined
  let unknown = false
  for (const [index, meeting] of meetings(course).entries()) {
    if (!comesTo(organism, meeting)) continue
    const A = exposureAt(organism, course, index)
    if (A === undefined) unknown = true
    else if (found === undefined || A > found.A) found = { A, index }
  }
  return { found, unknown }
}

function reportOf(organism: Organism, course: Course, core: number): GrowthReport {
  const { id, name, h0, room_log10, yardstick_log10, note, source, validity } = organism
  const { found, unknown } = largest(organism, course)
  const common = { organism: id, name, yardstick_log10, source }
  const notes = [message('growth-about', { note, medium: validity.medium })]
  if (unknown) notes.push(message('growth-outside-mass', { aw: validity.aw[0], pH_low: validity.pH[0] }))
  if (found === undefined) return { ...common, why: message('growth-not-computed', { name }), notes }
  const place = course.places()[found.index]!
  if (isOutside(organism, finePlaces(course)[found.index]!))
    return {
      ...common,
      why: message('growth-outside-range', { name, low_C: validity.T_C[0], high_C: validity.T_C[1] }, place.where),
      notes,
    }
  const of = (A: number, lag: number): number => Math.min(room_log10, growthLog10(A, lag, room_log10))
  const meeting = meetings(course)[found.index]!
  const known = meeting.keepings.every((one) => one !== undefined)
  if (!known) notes.push(message('growth-as-wet'))
  const log10 = of(found.A, h0.likely)
  const core_log10 = of(exposureAt(organism, course, core) ?? 0, h0.likely)
  const span = { low_log10: of(found.A, h0.high), high_log10: of(found.A, h0.low) }
  return {
    ...common,
    log10,
    ...span,
    core_log10,
    where: place.where,
    layer: place.layer,
    why:
      log10 < 0.25
        ? message('growth-hardly', { name, yardstick_log10 }, place.where)
        : message('growth-most', { name, log10, ...span, core_log10, yardstick_log10 }, place.where),
    notes,
  }
}

/** Index of the place that another lies in; of courses without fields the nearest, by shares of the bounding box. */
function indexOf(course: Course, place: Place): number {
  const mesh = course.segments.at(-1)?.mesh
  const at = mesh === undefined ? -1 : cellsThere(mesh).indexOf(cellAt(mesh, locate(mesh, place)))
  return at < 0 ? nearest(course, place) : at
}

function nearest(course: Course, { x, y, z }: Place): number {
  let best = 0
  let least = Number.POSITIVE_INFINITY
  for (const [index, { where }] of course.places().entries()) {
    const distance = (where.x - x) ** 2 + (where.y - y) ** 2 + (where.z - z) ** 2
    if (distance < least) {
      least = distance
      best = index
    }
  }
  return best
}

/** Growth of every organism at its worst place, with the core beside it. */
export function judgeGrowth(course: Course, core: Place): GrowthReport[] {
  const index = indexOf(course, core)
  return organisms.map((organism) => reportOf(organism, course, index))
}
