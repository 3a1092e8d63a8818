import type { Ingredient } from '../../core/materials/ingredient.ts'
import {
  findIngredient,
  type IngredientGroup,
  ingredientGroups,
  ingredientIds,
} from '../../core/materials/ingredients.ts'
import { nearest } from '../../core/nearest.ts'

/** The whole table, in the order of a shopping list. */
export const ingredients: readonly Ingredient[] = (Object.keys(ingredientGroups) as IngredientGroup[]).flatMap(
  (group) => ingredientGroups[group].flatMap((id) => findIngredient(id) ?? []),
)

/** What was typed for an ingredient: the one that is meant, or what could be meant. */
export type FoundIngredient =
  | { readonly ok: true; readonly ingredient: Ingredient }
  | { readonly ok: false; readonly problem: string }

const MOST_NAMED = 4

/** The ingredient that a text names: by title, name or other name, by the beginning or a part of one. */
export function readIngredient(text: string): FoundIngredient {
  const asked = text.trim().toLowerCase()
  if (asked === '') return { ok: false, problem: 'Name an ingredient, like butter' }
  const exact =
    ingredients.find(({ title }) => title.toLowerCase() === asked) ?? findIngredient(asked.replace(/\s+/g, '-'))
  if (exact !== undefined) return { ok: true, ingredient: exact }
  const starting = ingredients.filter(({ title }) => title.toLowerCase().startsWith(asked))
  const holding = ingredients.filter(({ title }) =>
    asked.split(/\s+/).every((word) => title.toLowerCase().includes(word)),
  )
  const [first, ...others] = starting.length > 0 ? starting : holding
  if (first !== undefined && others.length === 0) return { ok: true, ingredient: first }
  if (first !== undefined) return { ok: false, problem: `Which one: ${listed([first, ...others])}?` }
  const meant = nearest(asked, ingredientIds)
  const title = meant === undefined ? undefined : findIngredient(meant)?.title
  return {
    ok: false,
    problem: `“${text.trim()}” is not in the table${title === undefined ? '; choose from the list' : `; did you mean ${title}?`}`,
  }
}

function listed(found: readonly Ingredient[]): string {
  const named = found.slice(0, MOST_NAMED).map(({ title }) => title)
  const more = found.length - named.length
  return more > 0 ? `${named.join('; ')}; or ${more} more` : named.join('; ')
}
