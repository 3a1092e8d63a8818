import type { Variants } from './deciding/band.ts'
import { messagesWithBands } from './deciding/told-bands.ts'
import type { ApplianceReport, CarriedReport, Forecast, KillingReport, RuleVerdict } from './forecast-types.ts'
import type { Course } from './journey/course.ts'
import { layersOfJob } from './journey/job.ts'
import { getWall } from './materials/wall.ts'
import { type Message, message } from './messages.ts'
import { currentsIn } from './outcomes/currents.ts'
import { DANGER_C } from './outcomes/danger.ts'
import { dewOnChocolate } from './outcomes/dew.ts'
import { placeRanges } from './outcomes/place-ranges.ts'
import { standingCautions } from './outcomes/standing-cautions.ts'
import type { ResolvedPlan } from './plan/resolve.ts'
import type { Plan } from './plan/schema/plan.ts'
import { toHours } from './units.ts'

/* What the reader must be told beside the answers: each caution where its condition holds, some always. */

/** Heated to this anywhere, a piece counts as cooked: vegetative cells are gone, spores are not, °C. */
const COOKED_C = 60
/** Longer than this between 5 and 60 °C counts as slow: the shortest of the rules' first limits is 1.5 h, most say 2 h. */
const SLOW_H = 2
/** Drier than this heat hardly kills. Source: measurements in chocolate, cocoa, flour (shared/growth/killing.json). */
const DRY_AW = 0.85
/** Masses that burn deeply when poured, °C, and what nobody lifts alone, kg (choice). */
const SCALDS_C = 60
const HEAVY_KG = 15
/** No mass hotter than this straight on a wall that is not made for food, °C (choice). */
const WALL_C = 40
/** A load that warms a cabinet: so heavy, kg, and so much warmer than its air, K (choice). */
const LOAD_KG = 5
const LOAD_K = 20
const COLD_AIR_C = 10
/** Where a usual wire shelf of an upright fridge begins to be loaded, kg/m²: 80 % of what the weakest carry (from memory). */
const SHELF_kg_m2 = [90, 170] as const
const SHELF_SHARE = 0.8
/** Colder than this something is frozen, °C. */
const FROZEN_C = -2

/** What the cautions are drawn from. */
interface Found {
  readonly plan: Plan
  readonly resolved: ResolvedPlan
  readonly course: Course
  readonly appliances: readonly ApplianceReport[]
  readonly safety: readonly RuleVerdict[]
  readonly killing: readonly KillingReport[]
  readonly carried: readonly CarriedReport[]
  readonly mass_kg: number
  readonly shelf_kg_m2: number
  readonly danger: Forecast['danger']
  /** What the bands of times come from. */
  readonly variants: Variants
}

const most = (values: ArrayLike<number>): number => Array.from(values).reduce((a, b) => Math.max(a, b), -Infinity)
const least = (values: ArrayLike<number>): number => Array.from(values).reduce((a, b) => Math.min(a, b), Infinity)

/** Whether a stage in cold air begins with a large load that is much warmer. */
const warmsCabinet = ({ course, mass_kg, resolved }: Found): boolean =>
  mass_kg > LOAD_KG &&
  course.stages.some(({ first }, index) => {
    // Nothing else stands in a bath.
    if (resolved.job.stages[index]!.applianceFigures?.kind === 'bath') return false
    return course.air_C[first]! < COLD_AIR_C && course.mean_C[first]! > course.air_C[first]! + LOAD_K
  })

/** Walls of the mould that are not made for food and that the plan does not declare to be. */
function improvised({ plan }: Found): string[] {
  const walls = (plan.piece.mould ?? []).filter(({ food_grade }) => food_grade !== true)
  return [...new Set(walls.map(({ material }) => getWall(material)).filter((wall) => !wall.forFood))].map(
    ({ title }) => title,
  )
}

/** Whether something is poured, coated, cut or taken out of its mould after heat has been there. */
function touchedAfterHeat({ resolved, course }: Found): boolean {
  return course.stages.some(({ first }, index) => {
    const touches = resolved.job.stages[index]!.start.some(({ do: what }) => what !== 'move' && what !== 'cover')
    return touches && most(course.hottest_C.subarray(0, first + 1)) >= COOKED_C
  })
}

/** Cautions about food and hands. */
function ofFood(found: Found): Message[] {
  const { resolved, course, safety, killing, mass_kg, shelf_kg_m2, danger } = found
  const { longest_h, longest_early_h, longest_late_h } = danger
  const cooked = most(course.hottest_C) >= COOKED_C
  const layers = layersOfJob(resolved.job).filter(({ material }) => material.empty !== true)
  const dry = new Set(layers.map(({ material }) => material).filter(({ keeping }) => (keeping?.aw[1] ?? 1) < DRY_AW))
  const walls = improvised(found)
  const pours = layers.filter(({ start_C }) => start_C > SCALDS_C)
  const told: Message[] = []
  if (cooked && longest_h > SLOW_H)
    told.push(
      message('caution-spores', {
        longest_h,
        ...(longest_early_h === undefined ? {} : { longest_early_h }),
        ...(longest_late_h === undefined ? {} : { longest_late_h }),
        low_C: DANGER_C.low,
        high_C: DANGER_C.high,
      }),
    )
  if (safety.some(({ answer }) => answer === 'does not meet')) told.push(message('caution-toxin'))
  if (killing.some(({ answer }) => answer !== 'reached')) told.push(message('caution-raw-egg'))
  if (dry.size > 0)
    told.push(message('caution-dry', { titles: [...dry].map(({ title }) => title).join(', '), low_C: 70, high_C: 90 }))
  if (touchedAfterHeat(found)) told.push(message('caution-hands'))
  if (walls.length > 0) told.push(message('caution-mould', { titles: walls.join(', '), warm_C: WALL_C }))
  if (pours.length > 0) told.push(message('caution-scalds', { hottest_C: most(pours.map(({ start_C }) => start_C)) }))
  if (mass_kg > HEAVY_KG) told.push(message('caution-heavy', { mass_kg }))
  if (shelf_kg_m2 > SHELF_SHARE * SHELF_kg_m2[0])
    told.push(message('caution-shelf', { shelf_kg_m2, low_kg_m2: SHELF_kg_m2[0], high_kg_m2: SHELF_kg_m2[1] }))
  if (warmsCabinet(found)) told.push(message('caution-cabinet', { mass_kg }))
  if (least(course.coldest_C) < FROZEN_C) told.push(message('caution-freezing'))
  return told
}

/** Materials that run outside the range of their properties. */
function outsideRange({ resolved, course }: Found): Message[] {
  const { layers } = course.segments[course.segments.length - 1]!.mesh
  const ranges = placeRanges(course)
  return resolved.materials.flatMap((material) => {
    const [low_C, high_C] = material.validity_C
    const own = new Set(layers.filter((one) => one.material === material).map(({ name }) => name))
    let coldest_C = Number.POSITIVE_INFINITY
    let hottest_C = Number.NEGATIVE_INFINITY
    for (const [index, { layer }] of course.places().entries()) {
      if (!own.has(layer)) continue
      coldest_C = Math.min(coldest_C, ranges.coldest_C[index]!)
      hottest_C = Math.max(hottest_C, ranges.hottest_C[index]!)
    }
    const outside = coldest_C < low_C || hottest_C > high_C
    return outside ? [message('outside-validity', { title: material.title, low_C, high_C, coldest_C, hottest_C })] : []
  })
}

/** What the reader must be told: appliances, materials outside their range, food and hands, and what is always true. */
export function cautionsOf(found: Found): Message[] {
  const { resolved, course, appliances, carried, variants } = found
  const rising = resolved.materials.filter(({ baking }) => baking !== undefined && !baking.baked)
  const leftOut = course.height === undefined && course.segments.some(({ states }) => states.growth !== undefined)
  return [
    ...appliances.filter(({ answer }) => answer === 'is overloaded').flatMap(({ why, notes }) => [why, ...notes]),
    ...outsideRange(found),
    // Where a variant has none of it, it lasts no time at all.
    ...messagesWithBands(currentsIn(course), variants, currentsIn, 0),
    ...messagesWithBands(dewOnChocolate(resolved.job, course), variants, (one) => dewOnChocolate(resolved.job, one), 0),
    ...standingCautions(resolved.job, course, carried),
    ...(leftOut ? rising.map(({ title }) => message('rise-left-out', { title })) : []),
    ...course.stages
      .filter(({ endedBy }) => endedBy === 'max')
      .map(({ name, from, to }) => message('stopped-by-guard', { stage: name, within_h: toHours(to - from) })),
    ...ofFood(found),
    message('check-with-probe'),
    message('local-codes'),
    message('caution-met-is-not-proof'),
    message('caution-not-for'),
    message('caution-allergens'),
  ]
}
