import { type ReactNode, useId } from 'react'

import { faultSentence, useFieldFault } from '../plan-faults.ts'
import { Problem } from './Problem.tsx'
import { type NumberField, useTypedNumber } from './use-typed-number.ts'

interface QuantityFieldProps extends NumberField {
  readonly label: string
  /** A framed field with its label above, or a blue number within a list or drawing. */
  readonly look?: 'box' | 'inline'
  /** The number without its unit, where a drawing has one unit throughout. */
  readonly bare?: boolean
  /** What counts while nothing is typed. */
  readonly placeholder?: string
}

/** A number of the plan with its unit; takes any unit that is typed. */
export function QuantityField({
  label,
  look = 'box',
  bare = false,
  placeholder,
  ...field
}: QuantityFieldProps): ReactNode {
  const id = useId()
  const typed = useTypedNumber({ ...field, withUnit: look === 'inline' && !bare })
  const fault = useFieldFault(field.path)
  const problem = typed.problem ?? (fault === undefined ? null : faultSentence(label, fault))
  const input = {
    id,
    ...typed.input,
    type: 'text',
    inputMode: 'decimal',
    autoComplete: 'off',
    spellCheck: false,
    placeholder,
    'data-field': field.path,
    'data-pending': typed.pending,
    'aria-invalid': problem !== null,
    'aria-describedby': problem === null ? undefined : `${id}-problem`,
  } as const
  const wrong = problem === null ? null : <Problem id={`${id}-problem`} words={problem} />
  if (look === 'inline') {
    const width = Math.max(2, typed.value.length, typed.value === '' ? (placeholder?.length ?? 0) : 0)
    return (
      <>
        <input {...input} className="inline-number" aria-label={label} size={width} />
        {wrong}
      </>
    )
  }
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <div className="box">
        <input {...input} />
        {typed.unit.name === '' ? null : <span className="unit">{typed.unit.name}</span>}
      </div>
      {wrong}
    </div>
  )
}
