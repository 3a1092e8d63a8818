import { makeRecipe } from '../../core/materials/recipe.ts'
import { recipeFaults, recipeOf } from '../../core/materials/recipe-from-plan.ts'
import { bringsLayer } from '../../core/plan/laying.ts'
import type { Plan, PlanMaterial, PlanRecipe } from '../../core/plan/schema/plan.ts'
import { type RecipeLine, scaledLine } from './amounts.ts'
import { writeAt } from './path.ts'

/** How the air in a recipe is told. */
export type AirKind = 'none' | 'overrun_pct' | 'air_pct' | 'density_kg_m3'

const namePattern = /^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/

/** A material written in the plan; nothing when there is none of this name. */
export function ownMaterial(plan: Plan, id: string): PlanMaterial | undefined {
  return plan.materials !== undefined && Object.hasOwn(plan.materials, id) ? plan.materials[id] : undefined
}

/** The plan's own recipe of this name. */
export function ownRecipe(plan: Plan, id: string): PlanRecipe | undefined {
  const own = ownMaterial(plan, id)
  return own !== undefined && 'recipe' in own ? own : undefined
}

/** A name for one more recipe. */
export function freeName(plan: Plan, wanted = 'my-recipe'): string {
  const taken = new Set(Object.keys(plan.materials ?? {}))
  for (let number = 1; ; number++) {
    const name = number === 1 ? wanted : `${wanted}-${number}`
    if (!taken.has(name)) return name
  }
}

const withMaterial = (plan: Plan, id: string, material: PlanMaterial): Plan => ({
  ...plan,
  materials: { ...plan.materials, [id]: material },
})

const withRecipe = (plan: Plan, id: string, change: (recipe: PlanRecipe) => PlanRecipe): Plan => {
  const recipe = ownRecipe(plan, id)
  return recipe === undefined ? plan : withMaterial(plan, id, change(recipe))
}

/** One more line; the first one makes the recipe, and gives it to the layer that it was begun for. */
export function addLine(plan: Plan, id: string, line: RecipeLine, layerPath: string | null): Plan {
  if (ownRecipe(plan, id) !== undefined)
    return withRecipe(plan, id, (recipe) => ({ ...recipe, recipe: [...recipe.recipe, line] }))
  const made = withMaterial(plan, id, { recipe: [line] })
  return layerPath === null ? made : writeAt(made, `${layerPath}.material`, id)
}

export function writeLine(plan: Plan, id: string, index: number, line: RecipeLine): Plan {
  return withRecipe(plan, id, (recipe) => ({
    ...recipe,
    recipe: recipe.recipe.map((one, i) => (i === index ? line : one)),
  }))
}

/** Without one line; the last one stays, as a recipe needs one. */
export function removeLine(plan: Plan, id: string, index: number): Plan {
  return withRecipe(plan, id, (recipe) =>
    recipe.recipe.length === 1 ? recipe : { ...recipe, recipe: recipe.recipe.filter((_, i) => i !== index) },
  )
}

/** So many times as much of everything. */
export function scaleRecipe(plan: Plan, id: string, factor: number): Plan {
  return withRecipe(plan, id, (recipe) => ({
    ...recipe,
    recipe: recipe.recipe.map((line) => scaledLine(line, factor)),
  }))
}

export function airKind(recipe: PlanRecipe): AirKind {
  return (['overrun_pct', 'air_pct', 'density_kg_m3'] as const).find((key) => recipe[key] !== undefined) ?? 'none'
}

/** Air that a mass is given which had none, as a share of the volume. */
const SOME_AIR = 1 / 3

/** The same air told in another way. */
export function withAirKind(plan: Plan, id: string, kind: AirKind): Plan {
  return withRecipe(plan, id, (recipe) => {
    const { overrun_pct: _, air_pct: __, density_kg_m3: ___, ...rest } = recipe
    if (kind === 'none') return rest
    const usable = recipeFaults(recipe, '').length === 0
    const made = makeRecipe(recipeOf(usable ? recipe : { recipe: [{ ingredient: 'water', mass_kg: 1 }] }))
    const share = made.mass.porosity > 0 ? made.mass.porosity : SOME_AIR
    const value = {
      overrun_pct: (100 * share) / (1 - share),
      air_pct: 100 * share,
      density_kg_m3: (1 - share) * made.condensedDensity,
    }[kind]
    return { ...rest, [kind]: Math.round(value) }
  })
}

/** Why a name can't be used for a material; nothing when it can. */
export function nameFault(plan: Plan, id: string, wanted: string): string | undefined {
  if (!namePattern.test(wanted))
    return 'can hold letters, digits, dots, dashes and underscores, and begins with a letter or digit'
  return wanted !== id && ownMaterial(plan, wanted) !== undefined ? 'is taken in this plan; choose another' : undefined
}

/** A name as the plan writes it: dashes for spaces. */
export const asName = (text: string): string => text.trim().replace(/\s+/g, '-')

/** Another name for a material of the plan, wherever it is used. */
export function renameMaterial(plan: Plan, from: string, to: string): Plan {
  if (from === to || plan.materials === undefined || ownMaterial(plan, from) === undefined) return plan
  const renamed = <One extends { readonly material?: string }>(one: One): One =>
    one.material === from ? { ...one, material: to } : one
  const { piece, targets } = plan
  return {
    ...plan,
    materials: Object.fromEntries(Object.entries(plan.materials).map(([id, own]) => [id === from ? to : id, own])),
    piece: {
      ...piece,
      fill: piece.fill.map(renamed),
      ...(piece.lining === undefined ? {} : { lining: piece.lining.map(renamed) }),
      ...(piece.inserts === undefined ? {} : { inserts: piece.inserts.map(renamed) }),
    },
    stages: plan.stages.map((stage) =>
      stage.start === undefined
        ? stage
        : {
            ...stage,
            start: stage.start.map((action) => (bringsLayer(action) ? renamed(action) : action)),
          },
    ),
    ...(targets === undefined
      ? {}
      : { targets: targets.map((target) => ('material' in target ? renamed(target) : target)) }),
  }
}

/** Whether a layer is made of it, or a question is asked about it. */
export function isUsed(plan: Plan, id: string): boolean {
  const layers = [...(plan.piece.lining ?? []), ...plan.piece.fill, ...(plan.piece.inserts ?? [])]
  const actions = plan.stages.flatMap((stage) => stage.start ?? [])
  return (
    layers.some(({ material }) => material === id) ||
    actions.some((action) => bringsLayer(action) && action.material === id) ||
    (plan.targets ?? []).some((target) => 'material' in target && target.material === id)
  )
}

export function removeMaterial(plan: Plan, id: string): Plan {
  const { [id]: _, ...left } = plan.materials ?? {}
  if (Object.keys(left).length > 0) return { ...plan, materials: left }
  const { materials: __, ...bare } = plan
  return bare
}
