import { type ReactNode, useId } from 'react'

import type { Choice as Option } from '../catalog.ts'

export interface OptionGroup {
  readonly title: string | null
  readonly options: readonly Option[]
}

interface ChoiceProps {
  readonly label: string
  readonly value: string
  readonly groups: readonly OptionGroup[]
  readonly onChoose: (id: string) => void
  /** A framed field with its label above, or plain text within a list. */
  readonly look?: 'box' | 'inline'
  /** Key of its help, where the label isn't. */
  readonly help?: string
}

/** One of several names. A value that is none of them stands as it is. */
export function Choice({ label, value, groups, onChoose, look = 'box', help }: ChoiceProps): ReactNode {
  const id = useId()
  const shown = groups.flatMap(({ options }) => options).find((option) => option.id === value)?.title ?? value
  const known = groups.some(({ options }) => options.some((option) => option.id === value))
  const select = (
    <select
      id={id}
      value={value}
      data-help={help}
      aria-label={look === 'inline' ? label : undefined}
      onChange={(event) => onChoose(event.target.value)}
    >
      {known ? null : <option value={value}>{value}</option>}
      {groups.map(({ title, options }) => {
        const listed = options.map((option) => (
          <option key={option.id} value={option.id}>
            {option.title}
          </option>
        ))
        return title === null ? (
          listed
        ) : (
          <optgroup key={title} label={title}>
            {listed}
          </optgroup>
        )
      })}
    </select>
  )
  if (look === 'inline') {
    // the words wrap, which a select's own can't; the select lies over them
    return (
      <span className="inline-choice">
        <span aria-hidden="true">{shown}</span>
        {select}
      </span>
    )
  }
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <div className="box box-choice">{select}</div>
    </div>
  )
}
