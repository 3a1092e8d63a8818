import type { ReactNode } from 'react'

import { findIngredient } from '../../core/materials/ingredients.ts'
import type { PlanRecipe } from '../../core/plan/schema/plan.ts'
import { massOfLine } from '../edits/amounts.ts'
import { AddLine } from './AddLine.tsx'
import { IngredientList } from './IngredientList.tsx'
import { RecipeLineRow } from './RecipeLineRow.tsx'
import { RecipeName } from './RecipeName.tsx'
import { RecipeWhole } from './RecipeWhole.tsx'

interface RecipeEditorProps {
  readonly id: string
  /** Null until its first ingredient is there. */
  readonly recipe: PlanRecipe | null
  readonly layer: string | null
}

/** A material of one's own by its ingredients. */
export function RecipeEditor({ id, recipe, layer }: RecipeEditorProps): ReactNode {
  const lines = recipe?.recipe ?? []
  const total_kg = lines.reduce((sum, line) => {
    const ingredient = findIngredient(line.ingredient)
    return sum + (ingredient === undefined ? 0 : (massOfLine(line, ingredient) ?? 0))
  }, 0)
  return (
    <section className="recipe-editor" aria-label="Recipe">
      <IngredientList />
      <RecipeName key={id} id={id} begun={recipe !== null} />
      {lines.length === 0 ? (
        <p className="second">Type what goes in, one ingredient after the other; Enter takes you on.</p>
      ) : (
        <>
          <div className="recipe-head" aria-hidden="true">
            <span>Ingredient</span>
            <span className="number-head">Amount</span>
            <span>Measured</span>
            <span className="number-head">Share</span>
          </div>
          <ol className="recipe-lines">
            {lines.map((line, index) => (
              <RecipeLineRow
                // biome-ignore lint/suspicious/noArrayIndexKey: lines have no name of their own, one ingredient may stand twice
                key={index}
                id={id}
                line={line}
                index={index}
                total_kg={total_kg}
                only={lines.length === 1}
              />
            ))}
          </ol>
        </>
      )}
      <AddLine id={id} layer={layer} />
      {recipe === null ? null : <RecipeWhole id={id} recipe={recipe} />}
    </section>
  )
}
