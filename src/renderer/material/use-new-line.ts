import { useRef, useState } from 'react'

import { type AmountKind, amountKinds, asksWeight, lineOf, usualKind } from '../edits/amounts.ts'
import { addLine } from '../edits/recipes.ts'
import { usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import { readIngredient } from './find-ingredient.ts'
import { readAmount, readWeight } from './read-amount.ts'

/** Fields of a line that is being typed. */
export type NewLineField = 'name' | 'amount' | 'weight'

const blank = { name: '', amount: '', weight: '', kind: null as AmountKind | null }

/** The line that is typed next; it joins the recipe once it is whole. */
export function useNewLine(id: string, layer: string | null) {
  const edit = usePlan((state) => state.edit)
  const units = useSettings((state) => state.settings)
  const [typed, setTyped] = useState(blank)
  const [problem, setProblem] = useState<{ readonly at: NewLineField; readonly words: string } | null>(null)
  const fields = {
    name: useRef<HTMLInputElement>(null),
    amount: useRef<HTMLInputElement>(null),
    weight: useRef<HTMLInputElement>(null),
  }
  const found = readIngredient(typed.name)
  const ingredient = found.ok ? found.ingredient : null
  const kinds = ingredient === null ? [] : amountKinds(ingredient)
  const chosen = typed.kind !== null && kinds.includes(typed.kind) ? typed.kind : null
  const kind = ingredient === null ? 'mass' : (chosen ?? usualKind(ingredient))

  function change(patch: Partial<typeof blank>): void {
    setTyped({ ...typed, ...patch })
    setProblem(null)
  }

  function refuse(at: NewLineField, words: string): void {
    setProblem({ at, words })
    fields[at].current?.focus()
  }

  /** On from the name to the amount, once it is known what is meant. */
  function settleName(): void {
    if (found.ok) fields.amount.current?.focus()
    else refuse('name', found.problem)
  }

  function add(): void {
    if (!found.ok) {
      refuse('name', found.problem)
      return
    }
    const amount = readAmount(typed.amount, kind, found.ingredient, units)
    if (!amount.ok) {
      refuse('amount', amount.problem)
      return
    }
    const weight = asksWeight(amount.kind, found.ingredient) ? readWeight(typed.weight, units) : null
    if (weight !== null && !weight.ok) {
      refuse('weight', weight.problem)
      return
    }
    const line = lineOf(found.ingredient, amount.kind, amount.value, weight?.value)
    edit('new ingredient', (plan) => addLine(plan, id, line, layer))
    setTyped(blank)
    setProblem(null)
    fields.name.current?.focus()
  }

  return {
    typed,
    problem,
    fields,
    ingredient,
    kinds,
    kind,
    units,
    weighed: ingredient !== null && asksWeight(kind, ingredient),
    change,
    settleName,
    /** What is meant, written out, once the field is left. */
    spellOut: () => {
      if (ingredient !== null) setTyped({ ...typed, name: ingredient.title })
    },
    add,
  }
}
