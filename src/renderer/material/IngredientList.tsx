import type { ReactNode } from 'react'

import { ingredients } from './find-ingredient.ts'

export const INGREDIENT_LIST = 'ingredient-list'

/** Names that fields for ingredients offer, once for all of them. */
export function IngredientList(): ReactNode {
  return (
    <datalist id={INGREDIENT_LIST}>
      {ingredients.map(({ id, title }) => (
        <option key={id} value={title} />
      ))}
    </datalist>
  )
}
