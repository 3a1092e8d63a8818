import { type ReactNode, useId, useState } from 'react'

import { asName, nameFault, renameMaterial } from '../edits/recipes.ts'
import { Problem } from '../parts/Problem.tsx'
import { useOpenPlan, usePlan } from '../plan-store.ts'
import { useMaterialPage } from './material-page.ts'

/** What the recipe is called; layers of it follow another name. */
export function RecipeName({ id, begun }: { readonly id: string; readonly begun: boolean }): ReactNode {
  const field = useId()
  const plan = useOpenPlan()
  const edit = usePlan((state) => state.edit)
  const rename = useMaterialPage((state) => state.rename)
  const [text, setText] = useState<string | null>(null)
  const name = asName(text ?? id)
  const fault = text === null ? undefined : nameFault(plan, id, name)

  function settle(): void {
    if (text === null || fault !== undefined) return
    setText(null)
    if (name === id) return
    if (begun) edit('name of the recipe', (now) => renameMaterial(now, id, name))
    rename(name)
  }

  return (
    <div className="field recipe-name" data-help="recipe name">
      <label htmlFor={field}>Name</label>
      <div className="box">
        <input
          id={field}
          value={text ?? id}
          maxLength={64}
          autoComplete="off"
          spellCheck={false}
          data-pending={text !== null}
          aria-invalid={fault !== undefined}
          aria-describedby={fault === undefined ? undefined : `${field}-problem`}
          onChange={(event) => setText(event.target.value)}
          onBlur={settle}
          onKeyDown={(event) => {
            if (event.key === 'Enter') settle()
            if (event.key === 'Escape' && text !== null) {
              event.stopPropagation()
              setText(null)
            }
          }}
        />
      </div>
      {fault === undefined ? null : <Problem id={`${field}-problem`} words={`Name ${fault}.`} />}
    </div>
  )
}
