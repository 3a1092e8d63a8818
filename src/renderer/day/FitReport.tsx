import type { ReactNode } from 'react'

import type { Fit } from '../../core/fitting/fit-types.ts'
import { say } from '../../core/words/sentences.ts'
import type { Show } from '../../core/words/show.ts'
import { sentence } from '../answers/sentence.ts'

const determined: Readonly<Record<Fit['factors'][number]['determined'], string>> = {
  well: 'told well by the readings',
  partly: 'told in part',
  not: 'not told by the readings',
}

/** What the readings say of the piece and its surroundings, and what they leave open. */
export function FitReport({ fit, show }: { readonly fit: Fit; readonly show: Show }): ReactNode {
  return (
    <details className="more-notes fit-report">
      <summary>What the readings tell of the piece</summary>
      {fit.notes.map((note) => (
        <p key={note.code}>{sentence(say(note, show))}</p>
      ))}
      <p>
        The plan was off by {show.difference(fit.before_K)} on average
        {fit.explained
          ? `, by the readings it is ${show.difference(fit.after_K)}.`
          : '; no plausible piece gives such readings.'}
      </p>
      <dl>
        {fit.factors.map(({ title, unit, value, low, high, determined: how }) => (
          <div key={title}>
            <dt>{title}</dt>
            <dd>
              {value === undefined || low === undefined || high === undefined
                ? determined[how]
                : `${show.number(value)}${unit === 'factor' ? ' times' : ` ${unit}`}, between ${show.number(low)} and ${show.number(high)}; ${determined[how]}`}
            </dd>
          </div>
        ))}
      </dl>
    </details>
  )
}
