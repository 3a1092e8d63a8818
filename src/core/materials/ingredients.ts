import baked from '../../../shared/ingredients/baked.json'
import cocoa from '../../../shared/ingredients/cocoa.json'
import dairy from '../../../shared/ingredients/dairy.json'
import eggs from '../../../shared/ingredients/eggs.json'
import fats from '../../../shared/ingredients/fats.json'
import flours from '../../../shared/ingredients/flours.json'
import fruit from '../../../shared/ingredients/fruit.json'
import gelling from '../../../shared/ingredients/gelling.json'
import leavening from '../../../shared/ingredients/leavening.json'
import liquids from '../../../shared/ingredients/liquids.json'
import nuts from '../../../shared/ingredients/nuts.json'
import sugars from '../../../shared/ingredients/sugars.json'
import { type Ingredient, ingredientSchema } from './ingredient.ts'

/** Files of shared/ingredients by group, in the order of a shopping list; a test compares this list with the folder. */
const files = { flours, sugars, dairy, cocoa, eggs, fats, nuts, fruit, baked, gelling, leavening, liquids }

export type IngredientGroup = keyof typeof files

const rows: ReadonlyMap<string, unknown> = new Map(
  Object.values(files).flatMap((group) => group.map((row): [string, unknown] => [row.id, row])),
)
const aliases: ReadonlyMap<string, string> = new Map(
  Object.values(files).flatMap((group) =>
    group.flatMap((row) => ('aliases' in row ? row.aliases.map((alias): [string, string] => [alias, row.id]) : [])),
  ),
)
const parsed = new Map<string, Ingredient>()

/** Ids of all ingredients by group. */
export const ingredientGroups: Readonly<Record<IngredientGroup, readonly string[]>> = {
  flours: flours.map((row) => row.id),
  sugars: sugars.map((row) => row.id),
  dairy: dairy.map((row) => row.id),
  cocoa: cocoa.map((row) => row.id),
  eggs: eggs.map((row) => row.id),
  fats: fats.map((row) => row.id),
  nuts: nuts.map((row) => row.id),
  fruit: fruit.map((row) => row.id),
  baked: baked.map((row) => row.id),
  gelling: gelling.map((row) => row.id),
  leavening: leavening.map((row) => row.id),
  liquids: liquids.map((row) => row.id),
}

/** Ids of all ingredients. */
export const ingredientIds: readonly string[] = [...rows.keys()]

/** The ingredient of this id or alias; nothing when there is none. */
export function findIngredient(idOrAlias: string): Ingredient | undefined {
  const id = aliases.get(idOrAlias) ?? idOrAlias
  const known = parsed.get(id)
  if (known !== undefined || !rows.has(id)) return known
  const ingredient = ingredientSchema.parse(rows.get(id))
  parsed.set(id, ingredient)
  return ingredient
}
