import { type ReactNode, useId, useState } from 'react'

import type { Ingredient } from '../../core/materials/ingredient.ts'
import { Problem } from '../parts/Problem.tsx'
import { readIngredient } from './find-ingredient.ts'
import { INGREDIENT_LIST } from './IngredientList.tsx'

interface LineIngredientProps {
  readonly label: string
  readonly path: string
  /** What stands in the plan, in words. */
  readonly shown: string
  /** What the plan says against it. */
  readonly fault: string | null
  readonly onTake: (ingredient: Ingredient) => void
}

/** The ingredient of a line: type a part of its name. */
export function LineIngredient({ label, path, shown, fault, onTake }: LineIngredientProps): ReactNode {
  const id = useId()
  const [text, setText] = useState<string | null>(null)
  const [problem, setProblem] = useState<string | null>(null)

  function settle(typed: string): void {
    const found = readIngredient(typed)
    if (!found.ok) {
      setProblem(found.problem)
      return
    }
    setText(null)
    setProblem(null)
    if (found.ingredient.title !== shown) onTake(found.ingredient)
  }

  const wrong = problem ?? fault
  return (
    <span className="line-ingredient">
      <input
        className="inline-text"
        list={INGREDIENT_LIST}
        aria-label={label}
        aria-invalid={wrong !== null}
        aria-describedby={wrong === null ? undefined : `${id}-problem`}
        autoComplete="off"
        spellCheck={false}
        data-field={path}
        data-pending={text !== null}
        value={text ?? shown}
        onChange={(event) => setText(event.target.value)}
        onFocus={(event) => event.target.select()}
        onBlur={() => text !== null && settle(text)}
        onKeyDown={(event) => {
          if (event.key === 'Enter' && text !== null) settle(text)
          if (event.key === 'Escape' && text !== null) {
            event.stopPropagation()
            setText(null)
            setProblem(null)
          }
        }}
      />
      {wrong === null ? null : <Problem id={`${id}-problem`} words={wrong} />}
    </span>
  )
}
