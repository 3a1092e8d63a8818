import type { ReactNode } from 'react'

import { findIngredient } from '../../core/materials/ingredients.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import {
  amountKinds,
  asksWeight,
  kindOf,
  massOfLine,
  type RecipeLine,
  withIngredient,
  withKind,
} from '../edits/amounts.ts'
import { removeLine, writeLine } from '../edits/recipes.ts'
import { Choice } from '../parts/Choice.tsx'
import { IconButton } from '../parts/IconButton.tsx'
import { Problem } from '../parts/Problem.tsx'
import { QuantityField } from '../parts/QuantityField.tsx'
import { massRange, piecesRange, pieceWeightRange, volumeRange } from '../parts/ranges.ts'
import { faultSentence, useFieldFault } from '../plan-faults.ts'
import { usePlan } from '../plan-store.ts'
import { mass, pieces, pieceWeight, volume } from '../units.ts'
import { LineIngredient } from './LineIngredient.tsx'
import { kindWords, unitWords } from './unit-words.ts'

interface RecipeLineRowProps {
  readonly id: string
  readonly line: RecipeLine
  readonly index: number
  /** kg of the whole recipe, as far as it is known. */
  readonly total_kg: number
  readonly only: boolean
}

/** One line of a recipe: what, how much, how it is told, its share. */
export function RecipeLineRow({ id, line, index, total_kg, only }: RecipeLineRowProps): ReactNode {
  const edit = usePlan((state) => state.edit)
  const path = `materials.${id}.recipe[${index}]`
  const ingredient = findIngredient(line.ingredient)
  const title = ingredient?.title ?? line.ingredient
  const kind = kindOf(line, ingredient)
  const fault = useFieldFault(path)
  const unitFault = useFieldFault(`${path}.unit`)
  const ingredientFault = useFieldFault(`${path}.ingredient`)
  const write = (change: string, next: RecipeLine): void =>
    edit(change, (plan: Plan) => writeLine(plan, id, index, next))
  const kg = ingredient === undefined ? undefined : massOfLine(line, ingredient)
  const amount = amountField(line)
  return (
    <li className="recipe-line">
      <LineIngredient
        label={`Ingredient ${index + 1}`}
        path={`${path}.ingredient`}
        shown={title}
        fault={ingredientFault === undefined ? null : faultSentence('Ingredient', ingredientFault)}
        onTake={(next) => write('ingredient', withIngredient(line, ingredient, next))}
      />
      <span className="line-amount">
        <QuantityField
          look="inline"
          path={`${path}.${amount.key}`}
          label={`Amount of ${title}`}
          quantity={amount.quantity}
          range={amount.range}
          change={`amount of ${shortTitle(title)}`}
        />
      </span>
      {ingredient === undefined ? null : (
        <span className="line-kind">
          <Choice
            look="inline"
            label={`How ${title} is measured`}
            help="recipe measured"
            value={kind}
            groups={[
              {
                title: null,
                options: amountKinds(ingredient).map((one) => ({ id: one, title: kindWords(one, ingredient) })),
              },
            ]}
            onChoose={(next) => write('way of measuring', withKind(line, ingredient, next))}
          />
          {asksWeight(kind, ingredient) ? (
            <span className="line-weight">
              each
              <QuantityField
                look="inline"
                path={`${path}.unit_g`}
                label={`Weight of one, ${title}`}
                quantity={pieceWeight}
                range={pieceWeightRange}
                change="weight of a piece"
                placeholder="? g"
              />
            </span>
          ) : null}
        </span>
      )}
      <span className="line-share second">
        {kg === undefined || total_kg <= 0 ? '' : `${((100 * kg) / total_kg).toFixed(1)} %`}
      </span>
      <IconButton
        icon="bin"
        label={only ? 'The only ingredient stays' : `Take ${title} away`}
        disabled={only}
        onPress={() => edit('ingredient taken away', (plan) => removeLine(plan, id, index))}
      />
      {fault === undefined ? null : <Problem words={faultSentence(title, fault)} />}
      {unitFault === undefined ? null : (
        <Problem words={faultSentence(line.unit === undefined ? 'Unit' : unitWords(line.unit), unitFault)} />
      )}
    </li>
  )
}

/** The part of a title before its particulars. */
const shortTitle = (title: string): string => (title.split(',')[0] ?? title).toLowerCase()

function amountField(line: RecipeLine) {
  if (line.volume_L !== undefined) return { key: 'volume_L', quantity: volume, range: volumeRange }
  if (line.count !== undefined) return { key: 'count', quantity: pieces, range: piecesRange }
  return { key: 'mass_kg', quantity: mass, range: massRange }
}
