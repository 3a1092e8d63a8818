import { type FocusEvent, type KeyboardEvent, useEffect, useRef, useState } from 'react'

import type { Plan } from '../../core/plan/schema/plan.ts'
import { readAt, writeAt } from '../edits/path.ts'
import { usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import { type Range, readTyped } from '../typed.ts'
import { type Quantity, shownNumber, shownQuantity, shownUnit, toShown, toStored } from '../units.ts'

/** A number of the plan that can be typed, stepped and left out. */
export interface NumberField {
  /** Where it stands in the plan. */
  readonly path: string
  readonly quantity: Quantity
  /** Stored values that it takes. */
  readonly range: Range
  /** Name of the change, for undo. */
  readonly change: string
  /** May be left empty: the key then goes from the plan. */
  readonly optional?: boolean
  /** Puts the value into the plan where that is more than one key. */
  readonly write?: (plan: Plan, value: number | undefined) => Plan
  /** Shows the unit with the number. */
  readonly withUnit?: boolean
}

/** After this pause what was typed is taken, ms: long enough for the next digit. */
const PAUSE_MS = 450

let sessions = 0

/**
 * The text of a number field. What is typed stays as it was typed; it is taken after a pause, on Enter and on leaving,
 * and what can't be taken stays with its problem. All that is typed between entering and leaving is one step of undo.
 */
export function useTypedNumber(field: NumberField) {
  const { path, quantity, range, change, optional = false, withUnit = false } = field
  const stored = usePlan(({ history }) => (history === null ? undefined : readAt(history.present, path)))
  const settings = useSettings((state) => state.settings)
  const { edit, seal, refuse } = usePlan.getState()
  const write = field.write ?? ((plan: Plan, value: number | undefined) => writeAt(plan, path, value))
  const unit = shownUnit(quantity, settings, typeof stored === 'number' ? stored : undefined)
  const [text, setText] = useState<string | null>(null)
  const [problem, setProblem] = useState<string | null>(null)
  const session = useRef(0)
  const pause = useRef<ReturnType<typeof setTimeout> | undefined>(undefined)

  useEffect(
    () => () => {
      clearTimeout(pause.current)
      usePlan.getState().refuse(path, false)
    },
    [path],
  )

  const take = (value: number | undefined): void =>
    edit(change, (plan) => write(plan, value), `${path} ${session.current}`)

  function settle(typed: string): boolean {
    clearTimeout(pause.current)
    if (optional && typed.trim() === '') {
      take(undefined)
      return accept()
    }
    const read = readTyped(typed, quantity, unit, range)
    if (!read.ok) {
      setProblem(read.problem)
      refuse(path, true)
      return false
    }
    take(read.value)
    return accept()
  }

  function accept(): true {
    setProblem(null)
    refuse(path, false)
    return true
  }

  function step(by: number): void {
    const from = typeof stored === 'number' ? toShown(stored, unit) : 0
    const next = toStored(Number((from + by).toFixed(unit.decimals)), unit)
    take(Math.min(Math.max(next, range.above === true ? range.low + 1e-3 : range.low), range.high))
    setText(null)
    accept()
  }

  const shown = typeof stored !== 'number' ? '' : withUnit ? shownQuantity(stored, unit) : shownNumber(stored, unit)

  return {
    unit,
    problem,
    pending: text !== null,
    value: text ?? shown,
    input: {
      value: text ?? shown,
      onChange: (event: { readonly target: { readonly value: string } }) => {
        const typed = event.target.value
        setText(typed)
        clearTimeout(pause.current)
        pause.current = setTimeout(() => settle(typed), PAUSE_MS)
      },
      onFocus: (event: FocusEvent<HTMLInputElement>) => {
        sessions += 1
        session.current = sessions
        event.target.select()
      },
      onBlur: () => {
        if (text !== null && settle(text)) setText(null)
        seal()
      },
      onKeyDown: (event: KeyboardEvent<HTMLInputElement>) => {
        if (event.key === 'Enter' && text !== null && settle(text)) setText(null)
        if (event.key === 'Escape' && text !== null) {
          event.stopPropagation()
          clearTimeout(pause.current)
          setText(null)
          accept()
        }
        if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
          event.preventDefault()
          step((event.key === 'ArrowUp' ? 1 : -1) * (event.shiftKey ? 10 : 1))
        }
      },
    },
  }
}
