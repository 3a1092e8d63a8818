import { type ReactNode, useId, useRef, useState } from 'react'

import { readAt, writeAt } from '../edits/path.ts'
import { faultSentence, useFieldFault } from '../plan-faults.ts'
import { usePlan } from '../plan-store.ts'
import { MomentInput } from './MomentInput.tsx'
import { Problem } from './Problem.tsx'

interface TextFieldProps {
  readonly path: string
  readonly label: string
  /** Name of the change, for undo. */
  readonly change: string
  readonly type?: 'text' | 'time' | 'datetime-local'
  /** What an empty field means: it is refused, its key goes from the plan, or the plan holds an empty text. */
  readonly empty?: 'refused' | 'left out' | 'kept'
  readonly longest?: number
  readonly placeholder?: string
  readonly look?: 'box' | 'bare'
}

let sessions = 0

/** A name, a date or a time of the plan. All that is typed between entering and leaving is one step of undo. */
export function TextField({ path, label, change, type = 'text', look = 'box', ...more }: TextFieldProps): ReactNode {
  const { empty = 'refused', longest = 120, placeholder } = more
  const id = useId()
  const stored = usePlan(({ history }) => (history === null ? undefined : readAt(history.present, path)))
  const { edit, seal, refuse } = usePlan.getState()
  const [missing, setMissing] = useState(false)
  const [unread, setUnread] = useState(false)
  const startsAt = usePlan(({ history }) => history?.present.startsAt ?? '')
  const session = useRef(0)
  const fault = useFieldFault(path)

  function take(text: string): void {
    const refused = text === '' && empty === 'refused'
    setMissing(refused)
    refuse(path, refused)
    if (refused) return
    const value = text === '' && empty === 'left out' ? undefined : text
    edit(change, (plan) => writeAt(plan, path, value), `${path} ${session.current}`)
  }

  const problem = missing
    ? `${label} is missing; ${remedies[type]}.`
    : unread
      ? `${label} can’t be read; ${remedies[type]}.`
      : fault
        ? faultSentence(label, fault)
        : null
  const common = {
    id,
    'data-field': path,
    'aria-label': look === 'bare' ? label : undefined,
    'aria-invalid': problem !== null,
    'aria-describedby': problem === null ? undefined : `${id}-problem`,
    onFocus: () => {
      sessions += 1
      session.current = sessions
    },
    onBlur: () => {
      // left empty, the field goes back to what the plan still holds
      setMissing(false)
      refuse(path, false)
      seal()
    },
  }
  const value = missing ? '' : String(stored ?? '')
  const input =
    type === 'text' ? (
      <input
        {...common}
        type="text"
        value={value}
        maxLength={longest}
        placeholder={placeholder}
        autoComplete="off"
        onChange={(event) => take(event.target.value)}
      />
    ) : (
      <MomentInput
        {...common}
        kind={type}
        value={value}
        near={value === '' ? startsAt : value}
        none={type === 'time' ? 'no time' : 'no fixed time'}
        take={take}
        tellUnread={setUnread}
      />
    )
  const wrong = problem === null ? null : <Problem id={`${id}-problem`} words={problem} />
  if (look === 'bare') {
    return (
      <>
        {input}
        {wrong}
      </>
    )
  }
  return (
    <div className={`field field-${type}`}>
      <label htmlFor={id}>{label}</label>
      <div className="box">{input}</div>
      {wrong}
    </div>
  )
}

const remedies = {
  text: 'give it a name',
  time: 'give a time of day, like 7:30 or 7:30 pm',
  'datetime-local': 'give a day and a time, like 12 Mar 2027, 16:00',
} as const
