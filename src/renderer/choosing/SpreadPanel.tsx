import { type ReactNode, useEffect } from 'react'

import type { Spread, SpreadNumber } from '../../core/deciding/spread.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import type { Show } from '../../core/words/show.ts'
import { questionOf } from '../answers/questions.ts'
import { keepSampled } from './sampled-store.ts'
import { useDeciding } from './use-deciding.ts'
import { Working } from './Working.tsx'
import './choosing.css'

/** Runs that are enough for a band; another seed moves its ends by a tenth of its width at most. */
const ASK = { runs: 200, seed: 1 } as const
/** Inputs that are named. */
const NAMED = 4
/** Below this, what drives a spread isn't told by the regression. */
const WEAK_R2 = 0.7

/** How sure the answers are: all that is uncertain sampled, and what drives it most. */
export function SpreadPanel({ plan, show }: { readonly plan: Plan; readonly show: Show }): ReactNode {
  const { reply, of, running, problem, ask, cancel } = useDeciding('spread')
  useEffect(() => {
    if (reply !== null && of !== null) keepSampled(reply, of)
  }, [reply, of])
  return (
    <section className="choosing" aria-label="How sure">
      <h3>How sure</h3>
      <p className="second">
        {reply !== null && of === plan
          ? 'The bands of course, answers and rules are the sampled ones now, until the plan is changed.'
          : 'The bands of course, answers and rules are quick estimates. Sampling everything that is uncertain tells them better, and what drives them.'}
      </p>
      <button type="button" className="button" disabled={running !== null} onClick={() => ask({ plan, ...ASK })}>
        Sample {ASK.runs} pieces
      </button>
      <Working what="Sampling" running={running} problem={problem} cancel={cancel} />
      {reply === null || running !== null ? null : <Sampled spread={reply} plan={of ?? plan} show={show} />}
      {reply !== null && of !== plan ? <p className="second">From before the last change of the plan.</p> : null}
    </section>
  )
}

function Sampled({
  spread,
  plan,
  show,
}: {
  readonly spread: Spread
  readonly plan: Plan
  readonly show: Show
}): ReactNode {
  return (
    <ul className="choosing-list">
      {spread.runs < ASK.runs ? (
        <li className="second">
          Stopped: from the first {spread.runs} of {ASK.runs} pieces, so its ends are rough.
        </li>
      ) : null}
      {spread.answers.map((answer) => {
        const target = plan.targets?.[answer.index]
        return (
          <li key={answer.index} className="choosing-row">
            <b>{target === undefined ? answer.target : questionOf(target, show)}</b>
            <p>{momentsWords(answer, show)}</p>
            {answer.by_h === undefined ? null : <p>In time in {Math.round(100 * answer.met)} of 100 pieces.</p>}
            <p className="second">{driversWords(answer, spread)}</p>
          </li>
        )
      })}
      {spread.rules.map(({ rule, title, met }) => (
        <li key={rule} className="choosing-row">
          <b>{title}</b>
          <p>Meets it in {Math.round(100 * met)} of 100 pieces.</p>
        </li>
      ))}
    </ul>
  )
}

function momentsWords({ p5_h, p50_h, p95_h }: SpreadNumber, show: Show): string {
  if (p50_h === undefined) return 'Not within the plan in more than half of the pieces.'
  const early = p5_h === undefined ? '' : `, 5 of 100 before ${show.moment(p5_h)}`
  const late = p95_h === undefined ? ', some never within the plan' : `, 5 of 100 after ${show.moment(p95_h)}`
  return `Half of them ${show.moment(p50_h)}${early}${late}.`
}

function driversWords({ drivers }: SpreadNumber, { inputs, runs }: Spread): string {
  // As many runs as inputs explain anything.
  if (drivers === undefined)
    return runs < inputs.length + 2 ? 'Too few pieces to tell what drives it.' : 'Nothing drives it.'
  if (drivers.R2 < WEAK_R2) return 'No single input drives it.'
  const named = drivers.drivers.slice(0, NAMED).filter(({ coefficient }) => Math.abs(coefficient) > 0.1)
  const words = named.map(
    ({ input, coefficient }) => `${inputs[input]?.title ?? ''} (${Math.round(100 * coefficient ** 2)} %)`,
  )
  return `Driven by ${words.join(', ')}.`
}
