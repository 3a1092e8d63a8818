import { findSurroundings } from '../../boundary/surroundings.ts'
import { surroundingsOf } from '../../plan/exchange.ts'
import type { Plan, PlanLayer, PlanStage, PlanSurroundings } from '../../plan/schema/plan.ts'
import { repeatFrom } from '../../plan/unrolled.ts'

/* Parts of a plan that several changes look for, and copies of it with such a part replaced. */

/** Warmer air than this bakes. */
const HOT_C = 60
/** Air below this chills or freezes. */
const COLD_C = 15

/** Steady air of a stage, °C; undefined where it changes or isn't given. */
export function airOf(stage: PlanStage): number | undefined {
  const given = surroundingsOf(stage)
  const { air_C = given.like === undefined ? undefined : findSurroundings(given.like)?.air_C.typical } = given
  return typeof air_C === 'number' ? air_C : undefined
}

export const isHot = (stage: PlanStage): boolean => (airOf(stage) ?? 0) > HOT_C
export const isCold = (stage: PlanStage): boolean => (airOf(stage) ?? HOT_C) < COLD_C

/** Whether the plan asks for something baked. */
export const bakes = (plan: Plan): boolean => plan.stages.some(isHot)

/** The first stage that doesn't bake. */
export function firstCooling({ stages }: Plan): number | undefined {
  const index = stages.findIndex((stage) => !isHot(stage))
  return index < 0 ? undefined : index
}

/** The layer of the fill that counts most: the one that takes what the others leave, else the thickest. */
export function mainFill({ piece }: Plan): number {
  const open = piece.fill.findIndex(({ thickness_mm }) => thickness_mm === undefined)
  if (open >= 0) return open
  const thicknesses = piece.fill.map(({ thickness_mm = 0 }) => thickness_mm)
  return thicknesses.indexOf(Math.max(...thicknesses))
}

/** That layer where its thickness is its own to choose. */
export function thickestFill(
  plan: Plan,
): { readonly index: number; readonly layer: PlanLayer; readonly thickness_mm: number } | undefined {
  const index = mainFill(plan)
  const layer = plan.piece.fill[index]
  return layer?.thickness_mm === undefined ? undefined : { index, layer, thickness_mm: layer.thickness_mm }
}

export const withFill = (plan: Plan, index: number, layer: PlanLayer): Plan => ({
  ...plan,
  piece: { ...plan.piece, fill: plan.piece.fill.map((one, at) => (at === index ? layer : one)) },
})

export const withStages = (plan: Plan, stages: readonly PlanStage[]): Plan => ({ ...plan, stages: [...stages] })

/** Each stage as `edit` has it; undefined where it leaves all as they are. */
export function editStages(plan: Plan, edit: (stage: PlanStage) => PlanStage | undefined): Plan | undefined {
  const edited = plan.stages.map(edit)
  if (edited.every((stage) => stage === undefined)) return undefined
  return withStages(
    plan,
    plan.stages.map((stage, index) => edited[index] ?? stage),
  )
}

/** A stage in other surroundings, or with some of its own replaced. */
export const placedIn = (stage: PlanStage, surroundings: string | PlanSurroundings): PlanStage => ({
  ...stage,
  in: surroundings,
})

/** What is done at the start goes with the first of two parts of a stage. */
export function splitStage(
  stage: PlanStage,
  first_h: number,
  later: NonNullable<PlanStage['start']>,
): readonly [PlanStage, PlanStage] | undefined {
  const { until, start, ...rest } = stage
  if (stage.repeat !== undefined) return undefined
  if (until.after_h !== undefined && until.after_h <= first_h) return undefined
  const left = until.after_h === undefined ? until : { ...until, after_h: until.after_h - first_h }
  return [
    { ...rest, name: `${stage.name}, first`, ...(start === undefined ? {} : { start }), until: { after_h: first_h } },
    { ...rest, ...(later.length === 0 ? {} : { start: later }), until: left },
  ]
}

/** Whether a stage is one of those that are done several times, so that none may be put beside it. */
export function isRepeated({ stages }: Plan, index: number): boolean {
  return stages.some((_, last) => {
    const first = repeatFrom(stages, last)
    return first !== undefined && first <= index && index <= last
  })
}

/**
 * The first hours of a stage in other surroundings, out of the stage's own hours where it has some; what is done at its
 * start comes first. All of it where it is no longer than that.
 */
export function firstHoursIn(
  plan: Plan,
  index: number,
  name: string,
  surroundings: string,
  hours: number,
): Plan | undefined {
  const stage = plan.stages[index]
  if (stage === undefined) return undefined
  const { after_h } = stage.until
  if (after_h !== undefined && after_h <= hours)
    return withStages(plan, plan.stages.with(index, placedIn(stage, surroundings)))
  const parts = isRepeated(plan, index) ? undefined : splitStage(stage, hours, [])
  if (parts === undefined) return undefined
  const [first, rest] = parts
  const named = { ...placedIn(first, surroundings), name }
  return withStages(plan, plan.stages.toSpliced(index, 1, named, { ...rest, name: stage.name }))
}
