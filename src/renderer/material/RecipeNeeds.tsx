import { memo, type ReactNode } from 'react'

import { type BatchFit, fitBatch } from '../../core/batch.ts'
import { type LayerNeed, type PieceNeeds, pieceNeeds } from '../../core/needs.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import type { Show } from '../../core/words/show.ts'
import { layerRows } from '../edits/layers.ts'
import { writeAt } from '../edits/path.ts'
import { scaleRecipe } from '../edits/recipes.ts'
import { faultsOf } from '../plan-faults.ts'
import { usePlan } from '../plan-store.ts'
import type { Units } from '../units.ts'
import { unitWords } from './unit-words.ts'
import { weightWords } from './weights.ts'

interface RecipeNeedsProps {
  readonly plan: Plan
  readonly id: string
  /** kg put together, as the recipe is written. */
  readonly batch_kg: number
  readonly show: Show
  readonly units: Units
}

/** The recipe in the mould: what its layers take of each ingredient, and how thick the batch makes them. */
export const RecipeNeeds = memo(function RecipeNeeds(props: RecipeNeedsProps): ReactNode {
  const { plan, id, batch_kg, show, units } = props
  const edit = usePlan((state) => state.edit)
  if (faultsOf(plan).length > 0) return null
  const needs = pieceNeeds(plan)
  const own = needs.layers.filter(({ material }) => material === id)
  if (own.length === 0)
    return (
      <section className="recipe-needs" aria-label="In the mould">
        <h2>In the mould</h2>
        <p className="second">No layer is made of it yet: choose it in the list of layers.</p>
      </section>
    )
  const asked_kg = own.reduce((sum, layer) => sum + (layer.batch_kg ?? layer.mass_kg), 0)
  const enough = Math.abs(asked_kg / batch_kg - 1) < 0.005
  return (
    <section className="recipe-needs" aria-label="In the mould">
      <h2>In the mould</h2>
      <p>
        {own.length > 1 ? 'Its layers take ' : 'Its layer takes '}
        <b>{weightWords(asked_kg, units, show)}</b> put together; the recipe as written makes{' '}
        <b>{weightWords(batch_kg, units, show)}</b>.
      </p>
      {enough ? null : (
        <button
          type="button"
          className="button button-quiet"
          onClick={() => edit('recipe scaled', (now) => scaleRecipe(now, id, asked_kg / batch_kg))}
        >
          Make the recipe fit: {show.number(asked_kg / batch_kg)} times as much
        </button>
      )}
      <NeedsTable own={own} needs={needs} plan={plan} show={show} units={units} />
      {own.length === 1 && own[0] !== undefined ? (
        <WholeBatch plan={plan} layer={own[0]} fit={fitBatch(plan, own[0].name, batch_kg)} show={show} units={units} />
      ) : null}
    </section>
  )
})

/** A layer by the number that list and drawing give it. */
function layerWords(plan: Plan, { name }: LayerNeed): string {
  const number = layerRows(plan).findIndex((row) => row.name === name.replace(/ \(\d+\)$/, ''))
  return number < 0 ? 'coat' : `layer ${number + 1}`
}

interface NeedsTableProps extends Omit<RecipeNeedsProps, 'id' | 'batch_kg'> {
  readonly own: readonly LayerNeed[]
  readonly needs: PieceNeeds
}

/** Ingredients down, layers across. */
function NeedsTable({ own, plan, show, units }: NeedsTableProps): ReactNode {
  const ingredients = own[0]?.ingredients ?? []
  const sum = (index: number): number => own.reduce((kg, layer) => kg + (layer.ingredients?.[index]?.mass_kg ?? 0), 0)
  const counted = (index: number): string => {
    const all = own.map((layer) => layer.ingredients?.[index])
    const unit = all[0]?.unit
    if (unit === undefined || all.some((one) => one?.count === undefined)) return ''
    return `${show.number(all.reduce((count, one) => count + (one?.count ?? 0), 0))} ${unitWords(unit)}`
  }
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
    <section className="card-table" tabIndex={0} aria-label="What the piece takes of each ingredient">
      <table>
        <thead>
          <tr>
            <th scope="col">Weigh out</th>
            {own.map((layer) => (
              <th scope="col" key={layer.name} className="number">
                {layerWords(plan, layer)}
              </th>
            ))}
            {own.length > 1 ? (
              <th scope="col" className="number">
                in all
              </th>
            ) : null}
            <th scope="col" className="number">
              counted
            </th>
          </tr>
        </thead>
        <tbody>
          {ingredients.map(({ ingredient, title }, index) => (
            <tr key={ingredient}>
              <th scope="row">{title}</th>
              {own.map((layer) => (
                <td key={layer.name} className="number">
                  {weightWords(layer.ingredients?.[index]?.mass_kg ?? 0, units, show)}
                </td>
              ))}
              {own.length > 1 ? <td className="number">{weightWords(sum(index), units, show)}</td> : null}
              <td className="number">{counted(index)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="second">As it stays in the piece: add what clings to bowls and what is trimmed off.</p>
    </section>
  )
}

interface WholeBatchProps extends Omit<RecipeNeedsProps, 'id' | 'batch_kg'> {
  readonly layer: LayerNeed
  readonly fit: BatchFit
}

/** The other way: all of the batch in this layer. */
function WholeBatch({ plan, layer, fit, show, units }: WholeBatchProps): ReactNode {
  const edit = usePlan((state) => state.edit)
  const name = layerWords(plan, layer)
  const path = layer.name.startsWith('stages') ? layer.name : `piece.${layer.name}`
  const { thickness, over_kg, least, mass_kg, asked_kg } = fit
  if (least !== undefined)
    return (
      <p>
        All of the batch is too little: this shape takes {name} from {show.length(least)} on.
      </p>
    )
  if (thickness === undefined)
    return (
      <p>
        {over_kg === undefined
          ? `All of the batch fills ${show.number((100 * mass_kg) / asked_kg)} % of what the others leave.`
          : `All of the batch fills what the others leave; ${weightWords(over_kg, units, show)} are left over.`}
      </p>
    )
  const thickness_mm = Number((thickness * 1000).toPrecision(4))
  const same = layer.thickness !== null && Math.abs(layer.thickness * 1000 - thickness_mm) < 0.05
  return (
    <>
      <p>
        All of the batch makes {name} <b>{show.length(thickness)}</b> thick
        {over_kg === undefined
          ? '.'
          : `, as much as the shape takes; ${weightWords(over_kg, units, show)} are left over.`}
      </p>
      {same ? null : (
        <button
          type="button"
          className="button button-quiet"
          onClick={() => edit('thickness', (now) => writeAt(now, `${path}.thickness_mm`, thickness_mm))}
        >
          Make {name} {show.length(thickness)} thick
        </button>
      )}
    </>
  )
}
