import type { ReactNode } from 'react'

import type { DayAnswer, DayMoment, OnTheDay } from '../../core/fitting/on-the-day.ts'
import { keepArrival } from '../../core/fitting/on-the-day.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { say } from '../../core/words/sentences.ts'
import type { Show } from '../../core/words/show.ts'
import { questionOf } from '../answers/questions.ts'
import { sentence } from '../answers/sentence.ts'
import { HelpPanel } from '../choosing/HelpPanel.tsx'
import { durationRange, durationWords } from '../format-time.ts'
import { usePlan } from '../plan-store.ts'

interface DayAnswersProps {
  readonly day: OnTheDay
  readonly plan: Plan
  readonly show: Show
}

const states = ['ahead', 'on course', 'behind'] as const
const stateWords: Readonly<Record<DayAnswer['state'], string>> = {
  ahead: 'Ahead',
  'on course': 'On course',
  behind: 'Behind',
  unknown: 'Not known',
}

/** Gravest first: what is late, then what nobody can tell, then the rest. */
const gravity: Readonly<Record<DayAnswer['state'], number>> = { behind: 0, unknown: 1, 'on course': 2, ahead: 3 }
const keeping = { no: 0, likely: 1, surely: 2 } as const

/** How the day stands: one statement, then each question with its new time and what to do. */
export function DayAnswers({ day, plan, show }: DayAnswersProps): ReactNode {
  const answers = day.answers.toSorted(
    (a, b) =>
      keeping[a.kept ?? 'surely'] - keeping[b.kept ?? 'surely'] ||
      gravity[a.state] - gravity[b.state] ||
      a.index - b.index,
  )
  const first = answers[0]
  const needing = day.fit?.explained === true ? answers.find(({ needsChange }) => needsChange) : undefined
  if (first === undefined) return <p className="second">Nothing is asked of this piece yet.</p>
  return (
    <>
      <div className="day-statement" role="status">
        <Clock state={first.state} />
        <div>
          <b>{statement(first)}</b>
          <span className="second">{sentence(say(first.why, show))}</span>
        </div>
        <ul className="day-states" aria-label="How it stands">
          {states.map((state) => (
            <li key={state} aria-current={state === first.state ? 'true' : undefined}>
              {stateWords[state]}
            </li>
          ))}
        </ul>
      </div>
      <div className="day-answers">
        {answers.map((answer) => (
          <AnswerNow key={answer.index} answer={answer} now_h={day.now_h} plan={plan} show={show} />
        ))}
      </div>
      {needing === undefined ? null : (
        <HelpPanel plan={plan} show={show} now first={{ of: 'target', index: needing.index }} />
      )}
    </>
  )
}

function statement({ state, later_h, later_early_h, later_late_h }: DayAnswer): string {
  if (state === 'unknown') return 'No course explains these readings'
  if (state === 'on course' || later_h === undefined) return stateWords[state]
  const range =
    later_early_h === undefined || later_late_h === undefined
      ? ''
      : ` (${rangeWords(state, later_early_h, later_late_h)})`
  return `${stateWords[state]} by about ${durationWords(later_h)}${range}`
}

/** From the least to the most; where the band holds both ahead and behind, each with its word. */
function rangeWords(state: DayAnswer['state'], early_h: number, late_h: number): string {
  if (early_h < 0 && late_h > 0) return `${durationWords(early_h)} ahead to ${durationWords(late_h)} behind`
  return state === 'ahead' ? durationRange(-late_h, -early_h) : durationRange(early_h, late_h)
}

function AnswerNow({
  answer,
  now_h,
  plan,
  show,
}: {
  readonly answer: DayAnswer
  readonly now_h: number
  readonly plan: Plan
  readonly show: Show
}): ReactNode {
  const edit = usePlan((state) => state.edit)
  const target = plan.targets?.[answer.index]
  const { now, promised, came_h, why, todo, by_h } = answer
  return (
    <article className="day-answer">
      <h3>{target === undefined ? answer.target : questionOf(target, show)}</h3>
      <b className="day-time">{came_h === undefined ? momentWords(now, show) : show.moment(came_h)}</b>
      <span>{came_h === undefined ? bandWords(now, show) : 'found met'}</span>
      <span className="second">
        Promised: {momentWords(promised, show)}
        {bandWords(promised, show, ', ')}
      </span>
      {by_h === undefined ? null : <span className="second">Asked by {show.moment(by_h)}</span>}
      <p>{sentence(say(why, show))}</p>
      <p>
        <b>{sentence(say(todo, show))}</b>
      </p>
      {came_h === undefined && now_h > 0 ? (
        <button
          type="button"
          className="link"
          onClick={() => edit('found met', (was) => keepArrival(was, answer.index, now_h))}
        >
          Found met at the last reading
        </button>
      ) : null}
    </article>
  )
}

const momentWords = ({ at_h }: DayMoment, show: Show): string =>
  at_h === undefined ? 'not within the plan' : show.moment(at_h)

function bandWords({ at_h, early_h, late_h }: DayMoment, show: Show, before = ''): string {
  if (at_h === undefined || early_h === undefined) return ''
  const late = late_h === undefined ? 'after the end of the plan' : show.moment(late_h)
  return `${before}between ${show.moment(early_h)} and ${late}`
}

/** A dial with the part that is lost or gained. */
function Clock({ state }: { readonly state: DayAnswer['state'] }): ReactNode {
  return (
    <svg
      className={`day-clock day-${state.replace(' ', '-')}`}
      width="56"
      height="56"
      viewBox="-28 -28 56 56"
      aria-hidden="true"
    >
      {state === 'behind' ? <path className="day-wedge" d="M0 0V-26A26 26 0 0 0 -22.5 13Z" /> : null}
      {state === 'ahead' ? <path className="day-wedge" d="M0 0V-26A26 26 0 0 1 22.5 13Z" /> : null}
      <circle r="26" />
      <path d={state === 'unknown' ? 'M-6 -6A6.5 6.5 0 1 1 2 3L0 7M0 13v.5' : 'M0 -18V0L12 8'} />
    </svg>
  )
}
