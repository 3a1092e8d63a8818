import { type ReactNode, useState } from 'react'

import type { Help, TriedChange } from '../../core/choosing/help.ts'
import type { Question } from '../../core/choosing/question.ts'
import { elsewhereWords } from '../../core/choosing/side-effect-words.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import type { TimeBand } from '../../core/words/banded.ts'
import { say } from '../../core/words/sentences.ts'
import type { Show } from '../../core/words/show.ts'
import { spareWords } from '../../core/words/spare.ts'
import { sentence } from '../answers/sentence.ts'
import { durationRange, durationWords } from '../format-time.ts'
import { Choice } from '../parts/Choice.tsx'
import { usePlan } from '../plan-store.ts'
import { askedOf } from './asked.ts'
import { useDeciding } from './use-deciding.ts'
import { Working } from './Working.tsx'
import './choosing.css'

interface HelpPanelProps {
  readonly plan: Plan
  readonly show: Show
  /** From now on, for the piece as its readings have it. */
  readonly now?: boolean
  /** What is asked first; the plan's first question if left out. */
  readonly first?: Question
}

/** A change that buys less than this buys nothing, h. */
const WORTH_H = 1 / 12

/** Every real change tried on one question, the best first; pressing one makes it, as a step that can be undone. */
export function HelpPanel({ plan, show, now = false, first }: HelpPanelProps): ReactNode {
  const asked = askedOf(plan, show)
  const [chosen, choose] = useState<string | null>(null)
  const { reply, of, running, problem, ask, cancel } = useDeciding(now ? 'helpNow' : 'help')
  const start = asked.find(({ question }) => JSON.stringify(question) === JSON.stringify(first)) ?? asked[0]
  const one = asked.find(({ id }) => id === chosen) ?? start
  if (one === undefined) return null
  const what = `Trying changes${running?.doing ? `, ${running.doing.replace('change ', '')}` : ''}`
  return (
    <section className="choosing" aria-label="What would help">
      <h3>{now ? 'What would help from now on' : 'What would help'}</h3>
      {asked.length > 1 ? (
        <Choice
          label="For which question"
          value={one.id}
          groups={[{ title: null, options: asked }]}
          onChoose={choose}
        />
      ) : null}
      <button
        type="button"
        className="button"
        disabled={running !== null}
        onClick={() => ask({ plan, question: one.question })}
      >
        Try the changes
      </button>
      <Working what={what} running={running} problem={problem} cancel={cancel} />
      {reply === null || running !== null ? null : (
        <Ranked help={reply} show={show} stale={of !== plan} key={JSON.stringify(reply.question)} />
      )}
    </section>
  )
}

function Ranked({
  help,
  show,
  stale,
}: {
  readonly help: Help
  readonly show: Show
  readonly stale: boolean
}): ReactNode {
  const best = help.together === undefined ? help.ranked : [help.together, ...help.ranked]
  const helping = best.filter(({ gain_h, outcome }) =>
    gain_h === undefined ? outcome.met && !help.now.met : gain_h > WORTH_H,
  )
  // Only what was looked at closely has bands, and only with its band is a time told.
  const useful = helping.filter(({ sure }) => sure !== undefined)
  const others = helping.filter(({ sure }) => sure === undefined)
  const most = Math.max(...useful.map(({ gain_h }) => gain_h ?? 0), 1e-9)
  const idle = help.ranked.length - helping.filter(({ changes }) => changes.length === 1).length
  return (
    <>
      {stale ? <p className="second">From before the last change of the plan.</p> : null}
      {help.unfinished ? <p className="second">Stopped before everything was tried.</p> : null}
      {helping.length === 0 ? <p>Nothing that was tried helps it.</p> : null}
      <ol className="choosing-list">
        {useful.map((tried) => (
          <ChangeRow key={tried.changes.join(' ')} tried={tried} most={most} show={show} stale={stale} />
        ))}
      </ol>
      {others.length > 0 ? (
        <p className="second">
          These help less: {others.map(({ titles }) => titles.map((one) => say(one, show)).join(', and ')).join('; ')}.
        </p>
      ) : null}
      {idle > 0 ? (
        <p className="second">{`${idle} more were tried and make no difference, or make it worse.`}</p>
      ) : null}
    </>
  )
}

/** "3½ to 5 h"; where it may cost as well, "1 h lost to 2 h". */
const gainRange = (early_h: number, late_h: number): string =>
  early_h < 0 ? `${durationWords(early_h)} lost to ${durationWords(late_h)}` : durationRange(early_h, late_h)

const marginBand = (early_h: number | undefined, late_h: number | undefined): TimeBand => ({
  ...(early_h === undefined ? {} : { early_h }),
  ...(late_h === undefined ? {} : { late_h }),
})

function ChangeRow({
  tried,
  most,
  show,
  stale,
}: {
  readonly tried: TriedChange
  readonly most: number
  readonly show: Show
  readonly stale: boolean
}): ReactNode {
  const edit = usePlan((state) => state.edit)
  const { titles, trouble, outcome, gain_h, early_h, late_h, sure, elsewhere, plan, keep } = tried
  const { gain_early_h, gain_late_h, margin_early_h, margin_late_h } = tried
  const gain = gain_h ?? 0
  const title = titles.map((one) => say(one, show)).join(', and ')
  return (
    <li className="choosing-row">
      <div className="choosing-head">
        <b>{sentence(title)}</b>
        <span className="choosing-gain">
          {gain_h === undefined ? 'meets it' : `${durationWords(gain)} bought`}
          {gain_h === undefined || gain_early_h === undefined || gain_late_h === undefined ? null : (
            <small>{gainRange(gain_early_h, gain_late_h)}</small>
          )}
        </span>
      </div>
      <svg className="choosing-bar" viewBox="0 0 100 4" preserveAspectRatio="none" aria-hidden="true">
        <rect width={Math.max(1, (100 * gain) / most)} height="4" />
      </svg>
      <p>
        {outcome.at_h === undefined ? (outcome.met ? 'Met' : 'Not met') : `Ready ${show.moment(outcome.at_h)}`}
        {early_h === undefined
          ? '.'
          : `, between ${show.moment(early_h)} and ${late_h === undefined ? 'after the end of the plan' : show.moment(late_h)}.`}
        {outcome.margin_h === undefined
          ? ''
          : ` ${spareWords(outcome.margin_h, marginBand(margin_early_h, margin_late_h), show)}${
              sure === false && outcome.met ? ', not by the late end' : ''
            }.`}
      </p>
      <p className="second">{sentence(`costs: ${trouble.map((one) => say(one, show)).join('; ')}`)}</p>
      {elsewhere === undefined
        ? null
        : elsewhereWords(elsewhere, show).map((line) => (
            <p key={line} className="second">
              {sentence(line)}
            </p>
          ))}
      <button
        type="button"
        className="link"
        disabled={stale}
        onClick={() => edit(`change: ${title}`, () => keep ?? plan)}
      >
        Change the plan so
      </button>
    </li>
  )
}
