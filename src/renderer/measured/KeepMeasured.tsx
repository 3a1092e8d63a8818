import { type ReactNode, useId, useState } from 'react'

import { surroundingsTitleOf } from '../../core/boundary/surroundings.ts'
import type { Kept } from '../../core/fitting/kept.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import type { Show } from '../../core/words/show.ts'
import { materialTitle } from '../catalog.ts'
import { keepForLater, useMeasured } from './measured-store.ts'
import { materialMeasured, surroundingsMeasured } from './measured-words.ts'
import './measured.css'

interface KeepMeasuredProps {
  readonly keepable: Kept
  readonly plan: Plan
  readonly show: Show
}

/** What the readings have told of surroundings and materials, to be kept for later plans under a name. */
export function KeepMeasured({ keepable, plan, show }: KeepMeasuredProps): ReactNode {
  return (
    <section className="keep-measured" aria-label="Keep for later plans">
      <h3>Keep for later plans</h3>
      <p className="second">A plan in the same surroundings, or of the same material, can then take this over.</p>
      {keepable.surroundings.map((one) => (
        <KeepSurroundings key={one.name} one={one} show={show} />
      ))}
      {keepable.materials.map((one) => (
        <KeepRow
          key={one.id}
          title={materialTitle(plan, one.id)}
          words={one.material.measured === undefined ? '' : materialMeasured(one.material.measured, show)}
          kept={{ materials: [one] }}
        />
      ))}
    </section>
  )
}

const firstName = (title: string): string => `My ${title.charAt(0).toLowerCase()}${title.slice(1)}`

function KeepSurroundings({
  one,
  show,
}: {
  readonly one: Kept['surroundings'][number]
  readonly show: Show
}): ReactNode {
  const id = useId()
  const [name, setName] = useState(() => firstName(surroundingsTitleOf(one.in)))
  const kept = name.trim() === '' ? null : { surroundings: [{ ...one, name: name.trim() }] }
  return (
    <KeepRow
      title={name.trim()}
      words={one.in.measured === undefined ? '' : surroundingsMeasured(one.in.measured, show)}
      kept={kept}
    >
      <div className="field" data-help="measured name">
        <label htmlFor={id}>Called</label>
        <div className="box">
          <input id={id} value={name} maxLength={120} onChange={(event) => setName(event.target.value)} />
        </div>
      </div>
    </KeepRow>
  )
}

interface KeepRowProps {
  readonly title: string
  readonly words: string
  /** Null while it can't be kept. */
  readonly kept: Partial<Kept> | null
  readonly children?: ReactNode
}

function KeepRow({ title, words, kept, children }: KeepRowProps): ReactNode {
  const there = useMeasured((state) => kept !== null && holds(state.kept, kept))
  return (
    <div className="keep-row">
      {children ?? <b>{title}</b>}
      <span className="second">{words}</span>
      {there ? (
        <span role="status">Kept</span>
      ) : (
        <button
          type="button"
          className="button"
          aria-disabled={kept === null || undefined}
          aria-label={`Keep ${title}`}
          onClick={() => (kept === null ? undefined : void keepForLater(kept, title))}
        >
          Keep
        </button>
      )}
    </div>
  )
}

/** Whether all of it is kept already, word for word. */
function holds(kept: Kept, some: Partial<Kept>): boolean {
  const all = new Set([...kept.surroundings, ...kept.materials].map((one) => JSON.stringify(one)))
  return [...(some.surroundings ?? []), ...(some.materials ?? [])].every((one) => all.has(JSON.stringify(one)))
}
