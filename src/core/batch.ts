/* The other way round from needs.ts: how thick a layer gets from the batch that there is. */

import type { Layer } from './geometry/layer.ts'
import { type Job, layersOfJob } from './journey/job.ts'
import { meshOf, volumesOf } from './needs.ts'
import { findPlanFaults } from './plan/read.ts'
import { resolvePlan } from './plan/resolve.ts'
import type { Plan, PlanAction } from './plan/schema/plan.ts'
import { toMm } from './units.ts'

/** What becomes of a batch in one layer. */
export interface BatchFit {
  readonly layer: string
  /** kg put together, and kg of the mass that it makes. */
  readonly batch_kg: number
  readonly mass_kg: number
  /** kg of the mass that the layer takes as the plan has it. */
  readonly asked_kg: number
  /** Thickness that the batch gives, m; absent where the layer takes what the others leave, whatever there is. */
  readonly thickness?: number
  /** kg of the mass that have no room beside what the plan has. */
  readonly over_kg?: number
  /** m; thinner than this the shape does not take the layer. */
  readonly least?: number
}

/** Greatest thickness that a plan may have, m. */
const MOST = 10
/** Chords until a thickness is taken as found. */
const MOST_ROUNDS = 60
/** To this share of itself a mass is met. */
const MET = 1e-9
/** Halvings of the span in which a shape's limit lies. */
const HALVINGS = 26

/**
 * The thickness that a layer gets from a batch.
 * @param layer  as the plan names it
 * @param batch_kg  kg put together; as much as the recipe makes where left out
 * Throws: a plain error for a layer that the plan doesn't have, or a batch left out where there is no recipe.
 */
export function fitBatch(plan: Plan, layer: string, batch_kg?: number): BatchFit {
  const { job } = resolvePlan(plan)
  const found = layersOfJob(job).find(({ name }) => name === layer)
  if (found === undefined) throw new Error(`no layer is called ${layer}`)
  const { material } = found
  const put = batch_kg ?? material.recipe?.massIn_kg
  if (put === undefined) throw new Error(`${material.title} is no recipe`)
  const mass_kg = material.recipe === undefined ? put : (put * material.recipe.massOut_kg) / material.recipe.massIn_kg
  const massOf = (one: Job): number =>
    volumesOf(meshOf(one)).reduce((sum, own) => sum + (isPartOf(own.layer, layer) ? own.volume : 0), 0) *
    material.density
  const fits = (thickness: number): boolean => findPlanFaults(planWith(plan, layer, thickness)).length === 0
  const asked_kg = massOf(job)
  const facts = { layer, batch_kg: put, mass_kg, asked_kg }
  const start = found.thickness ?? firstFitting(fits)
  if (start === undefined) return mass_kg > asked_kg ? { ...facts, over_kg: mass_kg - asked_kg } : facts

  /** kg more than there is. */
  const excess = (thickness: number): number => massOf(withThickness(job, layer, thickness)) - mass_kg
  const enough = (thickness: number): boolean => excess(thickness) >= -MET * mass_kg
  let [low, high] = [start, start]
  if (enough(start)) {
    while (fits(low / 2) && enough(low)) low /= 2
    if (enough(low)) {
      const least = edgeOf(fits, low, low / 2)
      if (enough(least)) return { ...facts, least }
      low = least
    }
  } else {
    while (high * 2 <= MOST && fits(high * 2) && !enough(high)) high *= 2
    if (!enough(high)) {
      const most = edgeOf(fits, high, Math.min(2 * high, MOST))
      const over_kg = -excess(most)
      if (over_kg > MET * mass_kg) return { ...facts, thickness: most, over_kg }
      high = most
    }
  }
  return { ...facts, thickness: whereZero(excess, low, high, MET * mass_kg) }
}

/** Where a rising function crosses zero between two places: by chords, halving the weight of an end that stays. */
function whereZero(value: (at: number) => number, from: number, to: number, slack: number): number {
  let [low, high, below, above] = [from, to, value(from), value(to)]
  let stayed: 'low' | 'high' | undefined
  for (let round = 0; round < MOST_ROUNDS; round++) {
    if (above <= slack) return high
    const at = below >= above ? high : low - (below * (high - low)) / (above - below)
    const found = value(at)
    if (Math.abs(found) <= slack) return at
    if (found < 0) {
      low = at
      below = found
      if (stayed === 'high') above /= 2
      stayed = 'high'
    } else {
      high = at
      above = found
      if (stayed === 'low') below /= 2
      stayed = 'low'
    }
  }
  return high
}

/** A layer that is poured again in a repeated stage bears the same name with an addition. */
const isPartOf = ({ name }: Layer, layer: string): boolean => name === layer || name.startsWith(`${layer} `)

/** Some thickness that the plan takes; nothing where it takes none. */
function firstFitting(fits: (thickness: number) => boolean): number | undefined {
  for (let thickness = 1; thickness > 1e-3; thickness *= 0.8) if (fits(thickness)) return thickness
  return undefined
}

/** Last thickness that still fits on the way from one that does to one that may not. */
function edgeOf(fits: (thickness: number) => boolean, inside: number, outside: number): number {
  if (fits(outside)) return outside
  let [good, bad] = [inside, outside]
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (good + bad) / 2
    if (fits(middle)) good = middle
    else bad = middle
  }
  return good
}

function withThickness(job: Job, layer: string, thickness: number): Job {
  const changed = (one: Layer): Layer => (isPartOf(one, layer) ? { ...one, thickness } : one)
  return {
    ...job,
    lining: job.lining.map(changed),
    fill: job.fill.map(changed),
    stages: job.stages.map((stage) => ({
      ...stage,
      start: stage.start.map((action) =>
        action.do === 'pour' || action.do === 'coat' ? { ...action, layer: changed(action.layer) } : action,
      ),
    })),
  }
}

/** The plan with another thickness of one layer. */
function planWith(plan: Plan, layer: string, thickness: number): Plan {
  const thickness_mm = toMm(thickness)
  const [, list, at, stage, action] = /^(?:(fill|lining)\[(\d+)\]|stages\[(\d+)\]\.start\[(\d+)\])$/.exec(layer) ?? []
  const changed = <One>(all: readonly One[], index: number): One[] =>
    all.map((one, i) => (i === index ? { ...one, thickness_mm } : one))
  if (list === 'fill') return { ...plan, piece: { ...plan.piece, fill: changed(plan.piece.fill, Number(at)) } }
  if (list === 'lining')
    return { ...plan, piece: { ...plan.piece, lining: changed(plan.piece.lining ?? [], Number(at)) } }
  const stages = plan.stages.map((one, i) =>
    i === Number(stage) ? { ...one, start: changed((one.start ?? []).map(withoutYield), Number(action)) } : one,
  )
  return { ...plan, stages }
}

/** A coat tells its thickness or its yield stress, not both. */
function withoutYield(action: PlanAction): PlanAction {
  if (action.do !== 'coat') return action
  const { yield_Pa: _, ...rest } = action
  return rest
}
