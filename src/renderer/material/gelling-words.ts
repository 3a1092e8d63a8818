import { findIngredient } from '../../core/materials/ingredients.ts'
import type { PlanRecipe } from '../../core/plan/schema/plan.ts'
import { massOfLine } from '../edits/amounts.ts'

/** What a recipe is set with: how much of the mass, how strong; what only the packet can tell is asked. */
export function gellingSentences(recipe: PlanRecipe, massOut_kg: number): readonly string[] {
  return recipe.recipe.flatMap((line) => {
    const ingredient = findIngredient(line.ingredient)
    const gelling = ingredient?.gelling
    const kg = ingredient === undefined ? undefined : massOfLine(line, ingredient)
    if (ingredient === undefined || gelling === undefined || kg === undefined || massOut_kg <= 0) return []
    const share = ((100 * kg) / massOut_kg).toFixed(2)
    const bloom = line.unit === undefined ? undefined : gelling.bloom?.[line.unit.replace(/^sheet-/, '')]
    const strength =
      bloom === undefined
        ? gelling.agent === 'gelatin'
          ? ', Bloom as its packet says'
          : ', strength as its packet says'
        : ` of about ${bloom} Bloom`
    return [`${ingredient.title}: ${share} % of the mass${strength}`]
  })
}
