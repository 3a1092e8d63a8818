import { type ReactNode, useDeferredValue, useEffect, useMemo, useRef } from 'react'

import { findBuiltIn } from '../../core/materials/index.ts'
import { findWall } from '../../core/materials/wall.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { materialLook, materialTitle } from '../catalog.ts'
import { readAt } from '../edits/path.ts'
import { isUsed, ownMaterial, ownRecipe, removeMaterial } from '../edits/recipes.ts'
import { showIn } from '../format.ts'
import { Icon } from '../icons.tsx'
import { MeasuredMaterial } from '../measured/MeasuredMaterial.tsx'
import { lookFill } from '../parts/Patterns.tsx'
import { useOpenPlan, usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import { MaterialCurves } from './MaterialCurves.tsx'
import { MaterialGrounds } from './MaterialGrounds.tsx'
import { MaterialTable } from './MaterialTable.tsx'
import { type ShownMaterial, useMaterialPage } from './material-page.ts'
import { RecipeEditor } from './RecipeEditor.tsx'
import { RecipeNeeds } from './RecipeNeeds.tsx'
import { RecipeResult } from './RecipeResult.tsx'
import { useCard } from './use-card.ts'

const isKnown = (plan: Plan, id: string): boolean =>
  ownMaterial(plan, id) !== undefined || findBuiltIn(id) !== undefined || findWall(id) !== undefined

/** The material that is looked at; after undoing, what its layer is made of then. */
function currentId(plan: Plan, { id, layer, fresh }: ShownMaterial): string | null {
  if (fresh || isKnown(plan, id)) return id
  const now = layer === null ? undefined : readAt(plan, `${layer}.material`)
  return typeof now === 'string' && isKnown(plan, now) ? now : null
}

/** A material: its recipe if it is the plan's own, its curves, what they rest on. */
export function MaterialPage({ shown }: { readonly shown: ShownMaterial }): ReactNode {
  const plan = useOpenPlan()
  const { close, begun } = useMaterialPage.getState()
  const id = currentId(plan, shown)
  const exists = id !== null && isKnown(plan, id)
  useEffect(() => {
    if (id === null) close()
    else if (exists) begun()
  }, [id, exists, close, begun])
  return id === null ? null : <Page key={shown.layer} plan={plan} id={id} layer={shown.layer} fresh={!exists} />
}

interface PageProps {
  readonly plan: Plan
  readonly id: string
  readonly layer: string | null
  /** Not yet in the plan. */
  readonly fresh: boolean
}

function Page({ plan, id, layer, fresh }: PageProps): ReactNode {
  const units = useSettings(({ settings }) => settings)
  const settled = useDeferredValue(plan)
  const heading = useRef<HTMLHeadingElement>(null)
  useEffect(() => heading.current?.focus(), [])
  const recipe = ownRecipe(plan, id) ?? null
  const shown = useCard(id, ownMaterial(settled, id))
  const { startsAt } = plan
  const show = useMemo(() => showIn(units, startsAt), [units, startsAt])
  const card = fresh ? null : shown?.card
  const editor = recipe !== null || fresh
  return (
    <main className="material-page">
      <div className="heading-row material-head">
        <button type="button" className="link" onClick={() => leave(layer)}>
          <Icon name="back" />
          Back to the piece
        </button>
        {recipe === null || isUsed(plan, id) ? null : <TakeAway id={id} layer={layer} />}
      </div>
      <h1 ref={heading} tabIndex={-1} className="material-title">
        <svg className="swatch" width="18" height="18" aria-hidden="true" focusable="false">
          <rect width="18" height="18" fill={lookFill(materialLook(plan, id))} />
        </svg>
        {fresh ? 'New recipe' : materialTitle(plan, id)}
      </h1>
      <div className={editor ? 'material-columns' : undefined}>
        {editor ? <RecipeEditor id={id} recipe={recipe} layer={layer} /> : null}
        {recipe !== null && card?.material.recipe !== undefined ? (
          <div className="recipe-outcome">
            <RecipeResult
              card={card}
              recipe={recipe}
              facts={card.material.recipe}
              stale={shown?.stale === true}
              show={show}
              units={units}
            />
            <RecipeNeeds plan={settled} id={id} batch_kg={card.material.recipe.massIn_kg} show={show} units={units} />
          </div>
        ) : null}
      </div>
      <MeasuredMaterial plan={plan} id={id} show={show} />
      {card == null ? null : (
        <>
          <MaterialCurves card={card} show={show} units={units} />
          <details className="material-numbers">
            <summary>As a table</summary>
            <MaterialTable card={card} units={units} />
          </details>
          <MaterialGrounds card={card} show={show} />
        </>
      )}
    </main>
  )
}

/** Back to the layer from which one came. */
function leave(layer: string | null): void {
  useMaterialPage.getState().close()
  if (layer === null) return
  requestAnimationFrame(() => document.querySelector<HTMLElement>(`[data-card-of="${layer}"]`)?.focus())
}

function TakeAway({ id, layer }: { readonly id: string; readonly layer: string | null }): ReactNode {
  const edit = usePlan((state) => state.edit)
  return (
    <button
      type="button"
      className="link"
      onClick={() => {
        edit('recipe taken away', (plan) => removeMaterial(plan, id))
        leave(layer)
      }}
    >
      <Icon name="bin" />
      Take the recipe away
    </button>
  )
}
