import { type ReactNode, useEffect, useId, useRef } from 'react'

import { surroundingsTitleOf } from '../../core/boundary/surroundings.ts'
import type { Kept } from '../../core/fitting/kept.ts'
import { builtInTitle } from '../catalog.ts'
import { couldTake, withAllMeasured } from '../edits/measured.ts'
import { showIn } from '../format.ts'
import { Icon } from '../icons.tsx'
import { IconButton } from '../parts/IconButton.tsx'
import { usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import { forgetMeasured, useMeasured } from './measured-store.ts'
import { materialMeasured, measuredOn, surroundingsMeasured } from './measured-words.ts'
import './measured.css'

/** What was measured and kept: to be taken over into the plan that is open, or forgotten. */
export function MeasuredList(): ReactNode {
  const open = useMeasured((state) => state.open)
  return open ? <ListPage /> : null
}

function ListPage(): ReactNode {
  const id = useId()
  const { kept, close } = useMeasured()
  const units = useSettings(({ settings }) => settings)
  const show = showIn(units, '2000-01-01T00:00')
  const dialog = useRef<HTMLDialogElement>(null)
  useEffect(() => dialog.current?.showModal(), [])
  const empty = kept.surroundings.length + kept.materials.length === 0
  return (
    <dialog ref={dialog} className="help measured-list" aria-labelledby={`${id}-title`} onClose={close}>
      <div className="help-head">
        <h2 id={`${id}-title`}>What was measured</h2>
        <button type="button" className="icon-button" aria-label="Close" onClick={() => dialog.current?.close()}>
          <Icon name="close" />
        </button>
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys */}
      <section className="help-body" tabIndex={0} aria-label="What was measured, to be scrolled">
        {empty ? (
          <p>
            Nothing yet. Enter readings on the day: what they tell of freezer, oven or material can be kept there, and
            taken over by later plans.
          </p>
        ) : (
          <TakeAll kept={kept} />
        )}
        <ul>
          {kept.surroundings.map((one) => (
            <Row
              key={JSON.stringify(one)}
              name={one.name}
              of={surroundingsTitleOf(one.in)}
              words={one.in.measured === undefined ? '' : surroundingsMeasured(one.in.measured, show)}
              on={measuredOn(one.in.measured ?? {})}
              one={{ surroundings: [one] }}
            />
          ))}
          {kept.materials.map((one) => (
            <Row
              key={JSON.stringify(one)}
              name={builtInTitle(one.id)}
              of="Material"
              words={one.material.measured === undefined ? '' : materialMeasured(one.material.measured, show)}
              on={measuredOn(one.material.measured ?? {})}
              one={{ materials: [one] }}
            />
          ))}
        </ul>
      </section>
    </dialog>
  )
}

/** For the plan that is open: everything of its surroundings and materials at once. */
function TakeAll({ kept }: { readonly kept: Kept }): ReactNode {
  const plan = usePlan(({ history }) => history?.present ?? null)
  const edit = usePlan((state) => state.edit)
  if (plan === null) return <p className="second">Open a plan to take it over.</p>
  const count = couldTake(plan, kept)
  if (count === 0)
    return <p className="second">Nothing here is of this plan’s surroundings and materials, or all of it is taken.</p>
  return (
    <p>
      {count === 1 ? 'One stage or material' : `${count} stages or materials`} of this plan {count === 1 ? 'is' : 'are'}{' '}
      among it.{' '}
      <button
        type="button"
        className="button button-first"
        onClick={() => edit('all that was measured', (was) => withAllMeasured(was, kept))}
      >
        Take over into this plan
      </button>
    </p>
  )
}

interface RowProps {
  readonly name: string
  readonly of: string
  readonly words: string
  readonly on: string
  readonly one: Partial<Kept>
}

function Row({ name, of, words, on, one }: RowProps): ReactNode {
  return (
    <li className="measured-row">
      <div>
        <b>{name}</b>
        <span className="second">
          {of}
          {on}
        </span>
        <span>{words}</span>
      </div>
      <IconButton icon="bin" label={`Forget ${name}`} onPress={() => void forgetMeasured(one, name)} />
    </li>
  )
}
