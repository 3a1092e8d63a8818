import { type KeyboardEvent, type ReactNode, useId } from 'react'

import { Icon } from '../icons.tsx'
import { Choice } from '../parts/Choice.tsx'
import { Problem } from '../parts/Problem.tsx'
import { mass, shownUnit } from '../units.ts'
import { INGREDIENT_LIST } from './IngredientList.tsx'
import { kindWords } from './unit-words.ts'
import { type NewLineField, useNewLine } from './use-new-line.ts'

interface AddLineProps {
  readonly id: string
  readonly layer: string | null
}

/** The line that is typed next: name, amount, Enter. It joins the recipe once it is whole. */
export function AddLine({ id, layer }: AddLineProps): ReactNode {
  const field = useId()
  const line = useNewLine(id, layer)
  const { typed, problem, fields, ingredient, kinds, kind, units, weighed, change, add } = line
  const onEnter = (event: KeyboardEvent, go: () => void): void => {
    if (event.key !== 'Enter') return
    event.preventDefault()
    go()
  }
  const told = (at: NewLineField) => ({
    'aria-invalid': problem?.at === at,
    'aria-describedby': problem?.at === at ? `${field}-problem` : undefined,
  })
  return (
    <div className="add-line">
      <div className="field add-name" data-help="recipe ingredient">
        <label htmlFor={`${field}-name`}>Ingredient</label>
        <div className="box">
          <input
            ref={fields.name}
            id={`${field}-name`}
            list={INGREDIENT_LIST}
            placeholder="butter, sugar, whole egg …"
            autoComplete="off"
            spellCheck={false}
            value={typed.name}
            {...told('name')}
            onChange={(event) => change({ name: event.target.value })}
            onBlur={line.spellOut}
            onKeyDown={(event) => onEnter(event, line.settleName)}
          />
        </div>
      </div>
      <div className="field add-amount" data-help="recipe amount">
        <label htmlFor={`${field}-amount`}>Amount</label>
        <div className="box">
          <input
            ref={fields.amount}
            id={`${field}-amount`}
            inputMode="decimal"
            autoComplete="off"
            value={typed.amount}
            {...told('amount')}
            onChange={(event) => change({ amount: event.target.value })}
            onKeyDown={(event) => onEnter(event, add)}
          />
          <span className="unit">{kind === 'mass' ? shownUnit(mass, units).name : kind === 'volume' ? 'L' : '×'}</span>
        </div>
      </div>
      {ingredient === null ? null : (
        <div className="add-kind">
          <Choice
            label="Measured"
            value={kind}
            groups={[{ title: null, options: kinds.map((one) => ({ id: one, title: kindWords(one, ingredient) })) }]}
            onChoose={(next) => change({ kind: next })}
          />
        </div>
      )}
      {weighed ? (
        <div className="field add-weight" data-help="recipe weight">
          <label htmlFor={`${field}-weight`}>Weight of one</label>
          <div className="box">
            <input
              ref={fields.weight}
              id={`${field}-weight`}
              inputMode="decimal"
              autoComplete="off"
              value={typed.weight}
              {...told('weight')}
              onChange={(event) => change({ weight: event.target.value })}
              onKeyDown={(event) => onEnter(event, add)}
            />
            <span className="unit">g</span>
          </div>
        </div>
      ) : null}
      <button type="button" className="button add-button" onClick={add}>
        <Icon name="plus" />
        Add
      </button>
      {problem === null ? null : <Problem id={`${field}-problem`} words={problem.words} />}
    </div>
  )
}
