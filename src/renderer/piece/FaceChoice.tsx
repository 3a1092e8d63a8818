import type { ReactNode } from 'react'

import type { Plan } from '../../core/plan/schema/plan.ts'
import { readAt, writeAt } from '../edits/path.ts'
import { faceNames } from '../edits/shape.ts'
import { usePlan } from '../plan-store.ts'

interface FaceChoiceProps {
  readonly plan: Plan
  /** Where the list of faces stands in the plan. */
  readonly path: string
  readonly label: string
  /** None chosen is allowed: the core then decides. */
  readonly optional?: boolean
}

/** Which faces something lies on: one box a face. */
export function FaceChoice({ plan, path, label, optional = false }: FaceChoiceProps): ReactNode {
  const edit = usePlan((state) => state.edit)
  const given = readAt(plan, path)
  const chosen = Array.isArray(given) ? (given as string[]) : []
  // what the plan names stays, also where the whole piece doesn't have it: a face that a cut makes
  const names = [...new Set([...faceNames(plan.piece.shape), ...chosen])]

  function toggle(face: string, on: boolean): void {
    const next = names.filter((name) => (name === face ? on : chosen.includes(name)))
    if (next.length === 0 && !optional) return
    edit('faces', (now) => writeAt(now, path, next.length > 0 ? next : undefined))
  }

  return (
    <fieldset className="face-choice" data-help="faces">
      <legend>{label}</legend>
      {names.map((face) => (
        <label key={face}>
          <input
            type="checkbox"
            checked={chosen.includes(face)}
            onChange={(event) => toggle(face, event.target.checked)}
          />
          {face}
        </label>
      ))}
    </fieldset>
  )
}
