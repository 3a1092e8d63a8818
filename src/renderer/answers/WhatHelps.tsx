import { type ReactNode, useState } from 'react'

import type { TriedChange } from '../../core/choosing/help.ts'
import type { Forecast } from '../../core/forecast-types.ts'
import type { Plan } from '../../core/plan/schema.ts'
import type { Show } from '../../core/words/show.ts'
import { durationWords } from '../format-time.ts'
import { Choice } from '../parts/Choice.tsx'
import { usePlan } from '../plan-store.ts'
import { elsewhereWords, openQuestions, questionKey, questionTitle, thenWords, worthTrying } from './help-words.ts'
import { sentence } from './sentence.ts'
import { useTrying } from './use-trying.ts'

interface WhatHelpsProps {
  readonly forecast: Forecast
  readonly plan: Plan
  readonly show: Show
  /** From the last reading on. */
  readonly now?: boolean
}

/** What would turn a “not yet” or a “no”: real changes, each tried by a computation of its own, ranked by what they buy. */
export function WhatHelps({ forecast, plan, show, now = false }: WhatHelpsProps): ReactNode {
  const questions = openQuestions(forecast)
  const [asked, ask] = useState<string | null>(null)
  const trying = useTrying(now ? 'helpNow' : 'help')
  const present = usePlan(({ history }) => history?.present)
  const question = questions.find((one) => questionKey(one) === asked) ?? questions[0]
  if (question === undefined || present === undefined) return null
  const { help, running, problem } = trying
  const tried = help === null ? [] : worthTrying(help)
  const most_h = Math.max(1e-6, ...tried.map(({ gain_h = 0 }) => gain_h))
  return (
    <section className="what-helps" aria-labelledby="what-helps-heading">
      <header className="answers-head">
        <h3 id="what-helps-heading">What would help</h3>
        {help === null ? null : <span className="second">hours sooner</span>}
      </header>
      {questions.length < 2 ? null : (
        <Choice
          label="To"
          value={questionKey(question)}
          groups={[
            {
              title: null,
              options: questions.map((one) => ({
                id: questionKey(one),
                title: questionTitle(one, plan, forecast, show),
              })),
            },
          ]}
          onChoose={ask}
        />
      )}
      {running === null ? (
        <button type="button" className="button button-wide" onClick={() => trying.start(present, question)}>
          {help === null ? 'Try changes' : 'Try again'}
        </button>
      ) : (
        <p className="trying" role="status">
          <span>Trying changes{running.doing === '' ? '' : `: ${running.doing}`}</span>
          <progress max="1" value={running.share} aria-label="Trying changes" />
          <button type="button" className="link" onClick={trying.stop}>
            Cancel
          </button>
        </p>
      )}
      {problem === null ? null : <p role="alert">{problem}</p>}
      {help === null ? null : (
        <>
          {trying.of === present ? null : <p className="stale-note">From before your last change.</p>}
          {tried.length === 0 ? <p>Nothing that was tried helps with this. A smaller piece may.</p> : null}
          <ol>
            {tried.map((change) => (
              <HelpRow
                key={change.changes.join(' ')}
                change={change}
                most_h={most_h}
                show={show}
                takes={!now && trying.of === present}
              />
            ))}
          </ol>
        </>
      )}
    </section>
  )
}



interface HelpRowProps {
  readonly change: TriedChange
  readonly most_h: number
  readonly show: Show
  /** It can be taken into the plan: that is still the one on which it was tried. */
  readonly takes: boolean
}

function HelpRow({ change, most_h, show, takes }: HelpRowProps): ReactNode {
  const edit = usePlan((state) => state.edit)
  const { title, gain_h, trouble, elsewhere } = change
  const effects = elsewhere === undefined ? [] : elsewhereWords(elsewhere, show)
  return (
    <li className="help-row">
      <b>{sentence(title).slice(0, -1)}</b>
      <b className="help-gain">{gain_h === undefined ? '' : durationWords(gain_h)}</b>
      <span className="help-bar" aria-hidden="true">
        <span style={{ width: `${(100 * Math.max(0, gain_h ?? 0)) / most_h}%` }} />
      </span>
      <span className="second help-then">
        {[thenWords(change, show), ...trouble].map((words) => sentence(words)).join(' ')}
        {effects.length === 0 ? '' : ` Elsewhere: ${effects.join('; ')}.`}
      </span>
      {!takes ? null : (
        <button type="button" className="link help-try" onClick={() => edit(title.toLowerCase(), () => change.plan)}>
          Take it into the plan
        </button>
      )}
    </li>
  )
}
