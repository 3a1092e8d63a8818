import { ROOM_C } from '../core/boundary/appliance-figures.ts'
import { findSurroundings, surroundingsIds, surroundingsTitleOf } from '../core/boundary/surroundings.ts'
import { AIR_LAYER } from '../core/materials/air-layer.ts'
import { findBuiltIn, materialIds } from '../core/materials/index.ts'
import type { Look } from '../core/materials/material.ts'
import { findWall, wallIds } from '../core/materials/wall.ts'
import type { Plan, PlanStage, PlanSurroundings } from '../core/plan/schema/plan.ts'

/** Something that can be chosen by name. */
export interface Choice {
  readonly id: string
  readonly title: string
}

const alphabet = new Intl.Collator('en')
const byTitle = (a: Choice, b: Choice): number => alphabet.compare(a.title, b.title)

/** Built-in masses. */
export const materialChoices: readonly Choice[] = materialIds
  .map((id) => ({ id, title: findBuiltIn(id)?.title ?? id }))
  .sort(byTitle)

/** What a layer of the piece may be: a mass, or air between others. */
export const layerChoices: readonly Choice[] = [...materialChoices, { id: AIR_LAYER, title: 'Air, closed in' }]

/** What moulds and covers are made of. */
export const wallChoices: readonly Choice[] = wallIds
  .map((id) => ({ id, title: findWall(id)?.title ?? id }))
  .sort(byTitle)

/** Built-in surroundings. */
export const surroundingsChoices: readonly Choice[] = surroundingsIds
  .map((id) => ({ id, title: findSurroundings(id)?.title ?? id }))
  .sort(byTitle)

/** Whether a plan says of what a name stands; a built-in material of which only more is known keeps its name and look. */
const isOwn = (plan: Plan, id: string): boolean => {
  const own = plan.materials !== undefined && Object.hasOwn(plan.materials, id) ? plan.materials[id] : undefined
  return own !== undefined && !('like' in own && own.like === id)
}

/** A plan's own materials. */
export const ownMaterials = (plan: Plan): Choice[] =>
  Object.keys(plan.materials ?? {})
    .filter((id) => isOwn(plan, id))
    .map((id) => ({ id, title: id }))

/** What a material of the tables is called; its name where they have none such. */
export const builtInTitle = (id: string): string =>
  id === AIR_LAYER ? 'Air' : (findBuiltIn(id)?.title ?? findWall(id)?.title ?? id)

/** What a material is called; its name in the plan where nothing else is known. */
export const materialTitle = (plan: Plan, id: string): string => (isOwn(plan, id) ? id : builtInTitle(id))

/** How a material is drawn; a plan's own and an unknown one are plain. */
export function materialLook(plan: Plan, id: string): Look {
  if (isOwn(plan, id)) return 'plain'
  if (id === AIR_LAYER) return 'air'
  return findBuiltIn(id)?.look ?? 'plain'
}

/** What a stage's surroundings are called, in few words. */
export const surroundingsTitle = (stage: PlanStage): string => surroundingsTitleOf(stage.in)

/** Air of built-in surroundings that stays the same, °C; null where it changes or isn't known. */
export function usualAir(id: string): number | null {
  const typical = findSurroundings(id)?.air_C.typical
  return typeof typical === 'number' ? typical : null
}

/** What drives built-in surroundings, where they are an appliance: the plan's key of its power, and the usual one, W. */
export function usualPower(id: string): { readonly key: 'heater_W' | 'capacity_W'; readonly watts: number } | null {
  const appliance = findSurroundings(id)?.appliance
  if (appliance === undefined || appliance.off === true) return null
  const key = appliance.heater_W === undefined ? 'capacity_W' : 'heater_W'
  const watts = appliance[key]?.typical
  return watts === undefined ? null : { key, watts }
}

/** What kind of appliance a stage's surroundings are; null where their air is simply there. */
export function applianceKind(
  id: string,
  { appliance, air_C }: Pick<PlanSurroundings, 'appliance' | 'air_C'>,
): 'cold' | 'oven' | 'bath' | null {
  if (appliance === false || Array.isArray(air_C)) return null
  return appliance?.kind ?? findSurroundings(id)?.appliance?.kind ?? null
}

/** What built-in surroundings are taken to have where a plan leaves it open, by the plan's key; null where nothing is. */
export function usualFigure(id: string, key: string): number | null {
  const found = findSurroundings(id)
  const { humidity, emissivity, appliance } = found ?? {}
  const figures: Readonly<Record<string, number | undefined>> = {
    'humidity.relative_pct': humidity !== undefined && 'relative' in humidity ? 100 * humidity.relative : undefined,
    emissivity: found === undefined ? undefined : emissivity,
    'appliance.start_C': appliance?.start_C ?? appliance?.set_C,
    'appliance.room_C': ROOM_C,
    'appliance.UA_W_K': appliance?.UA_W_K.typical,
    'appliance.limit_C': appliance?.limit_C,
    'appliance.rating_kg_24h': appliance?.rating_kg_24h,
    'appliance.water_kg': appliance?.water_kg?.typical,
    'appliance.ice_kg': appliance?.ice_kg?.typical,
  }
  return figures[key] ?? null
}

/** Usual speed of the air of built-in surroundings, m/s. */
export const usualSpeed = (id: string): number | null => findSurroundings(id)?.speed_m_s?.typical ?? null

/** A cover's or wall's usual thickness, mm. */
export function usualThickness(id: string): number | null {
  const thickness = findWall(id)?.usualThickness
  return thickness === undefined ? null : thickness * 1000
}
