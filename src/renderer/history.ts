/** One named change and the value before it. */
interface Step<T> {
  readonly name: string
  readonly value: T
}

/**
 * Values that were, and values that were undone. Changes with the same key in a row become one step: a drag, or the
 * typing in one field. `seal` ends such a gesture.
 */
export interface History<T> {
  readonly past: readonly Step<T>[]
  readonly present: T
  readonly future: readonly Step<T>[]
  readonly key: string | null
}

const MOST_STEPS = 200

export function startHistory<T>(present: T): History<T> {
  return { past: [], present, future: [], key: null }
}

/** A change by its name ("thickness"). */
export function change<T>(history: History<T>, name: string, next: T, key: string | null = null): History<T> {
  if (Object.is(next, history.present)) return history
  const goesOn = key !== null && key === history.key && history.past.length > 0
  const past = goesOn ? history.past : [...history.past, { name, value: history.present }].slice(-MOST_STEPS)
  return { past, present: next, future: [], key }
}

/** What follows is a new step, whatever its key. */
export function seal<T>(history: History<T>): History<T> {
  return history.key === null ? history : { ...history, key: null }
}

export function undo<T>(history: History<T>): History<T> {
  const step = history.past.at(-1)
  if (step === undefined) return history
  return {
    past: history.past.slice(0, -1),
    present: step.value,
    future: [{ name: step.name, value: history.present }, ...history.future],
    key: null,
  }
}

export function redo<T>(history: History<T>): History<T> {
  const [step, ...later] = history.future
  if (step === undefined) return history
  return {
    past: [...history.past, { name: step.name, value: history.present }],
    present: step.value,
    future: later,
    key: null,
  }
}

/** Name of the change that undo would take back. */
export const undoName = <T>(history: History<T>): string | null => history.past.at(-1)?.name ?? null

/** Name of the change that redo would make again. */
export const redoName = <T>(history: History<T>): string | null => history.future[0]?.name ?? null
