import type { ReactNode } from 'react'

import type { Fit } from '../../core/fitting/fit-types.ts'
import type { Kept } from '../../core/fitting/kept.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { say } from '../../core/words/sentences.ts'
import type { Show } from '../../core/words/show.ts'
import { sentence } from '../answers/sentence.ts'
import { KeepMeasured } from '../measured/KeepMeasured.tsx'
import type { Units } from '../units.ts'
import { ResidualPlot } from './ResidualPlot.tsx'

const determined: Readonly<Record<Fit['factors'][number]['determined'], string>> = {
  well: 'told well by the readings',
  partly: 'told in part',
  not: 'hardly told',
}

interface FitReportProps {
  readonly fit: Fit
  readonly keepable: Kept | null
  readonly plan: Plan
  readonly show: Show
  readonly units: Units
}

/** What the readings say of the piece and its surroundings, and what they leave open. */
export function FitReport({ fit, keepable, plan, show, units }: FitReportProps): ReactNode {
  const told = fit.factors.flatMap(({ value, low, high, ...factor }) =>
    value === undefined || low === undefined || high === undefined ? [] : [{ ...factor, value, low, high }],
  )
  const open = fit.factors.filter(({ value }) => value === undefined)
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
      <ResidualPlot readings={fit.readings} startsAt={plan.startsAt} show={show} units={units} />
      <dl>
        {told.map(({ title, unit, value, low, high, determined: how }) => (
          <div key={title}>
            <dt>{title}</dt>
            <dd>
              {show.number(value)}
              {unit === 'factor' ? ' times' : ` ${unit}`}, between {show.number(low)} and {show.number(high)};{' '}
              {determined[how]}
            </dd>
          </div>
        ))}
      </dl>
      {open.length === 0 ? null : (
        <details>
          <summary>{open.length === 1 ? 'One more is' : `${open.length} more are`} not told by the readings</summary>
          <p className="second">{open.map(({ title }) => title).join('; ')}.</p>
        </details>
      )}
      {keepable === null ? null : <KeepMeasured keepable={keepable} plan={plan} show={show} />}
    </details>
  )
}
