import type { ReactNode } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import { say } from '../../core/words/sentences.ts'
import type { Show } from '../../core/words/show.ts'
import { powerOfTen } from './power-of-ten.ts'
import { sentence } from './sentence.ts'

/** A tenth of a degree is the finest that is told. */
const errorWords = (error_K: number, show: Show): string =>
  error_K < 0.05 ? `under ${show.difference(0.1)}` : show.difference(error_K)

interface ModelNotesProps {
  readonly model: Forecast['model']
  readonly show: Show
}

/** How the forecast was computed, how far its numbers hold, and what was taken for granted. */
export function ModelNotes({ model, show }: ModelNotesProps): ReactNode {
  const said = (defaults: boolean): readonly string[] => [
    ...new Set(
      model.notes
        .filter((note) => (note.code === 'default-used') === defaults)
        .map((note) => sentence(say(note, show))),
    ),
  ]
  const [assumed, others] = [said(true), said(false)]
  return (
    <details className="model-notes">
      <summary>How this was computed</summary>
      <dl>
        <dt>Fidelity</dt>
        <dd>
          {model.fidelity}, in {model.dimensions === 1 ? 'one dimension' : `${model.dimensions} dimensions`}
        </dd>
        <dt>Grid and time</dt>
        <dd>
          {model.cells} cells, {model.steps} steps, {Math.round(model.wall_ms)} ms
        </dd>
        <dt>Error of the curves</dt>
        <dd>
          {errorWords(model.error_K.mean, show)} on average, {errorWords(model.error_K.largest, show)} at most;
          estimated from two grids, without what is uncertain in the plan
        </dd>
        <dt>Heat unaccounted for</dt>
        <dd>{powerOfTen(model.energyResidual)} of the heat moved</dd>
      </dl>
      <NoteList title="Assumed in the model" notes={others} />
      <NoteList title="Not given in the plan" notes={assumed} />
    </details>
  )
}

function NoteList({ title, notes }: { readonly title: string; readonly notes: readonly string[] }): ReactNode {
  if (notes.length === 0) return null
  return (
    <>
      <h4>{title}</h4>
      <ul>
        {notes.map((note) => (
          <li key={note}>{note}</li>
        ))}
      </ul>
    </>
  )
}
