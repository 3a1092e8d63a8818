import type { ReactNode } from 'react'

import type { Forecast, RuleVerdict } from '../../core/forecast-types.ts'
import { say } from '../../core/words/sentences.ts'
import type { Show } from '../../core/words/show.ts'
import { durationRange, durationWords } from '../format-time.ts'
import { AnswerFrame } from './AnswerFrame.tsx'
import { PlaceButton } from './PlaceButton.tsx'
import { ruleIndex, ruleMarks, ruleWords, stepWords } from './questions.ts'
import { sentence } from './sentence.ts'

interface RuleAnswerProps {
  readonly forecast: Forecast
  readonly rule: number
  readonly show: Show
  readonly open: boolean
  readonly onToggle: () => void
}

/** A published rule step by step, at the place that fares worst; never one word stronger than the rule's own. */
export function RuleAnswer({ forecast, rule, show, open, onToggle }: RuleAnswerProps): ReactNode {
  const verdict = forecast.safety[rule]
  if (!verdict) return null
  return (
    <AnswerFrame
      index={ruleIndex(forecast, rule)}
      mark={ruleMarks[verdict.answer]}
      question="Within the rule?"
      word={ruleWords[verdict.answer]}
      open={open}
      onToggle={onToggle}
      short={<p>{verdict.title}</p>}
    >
      {verdict.steps.length > 0 && (
        <ul className="rule-steps">
          {verdict.steps.map((step) => (
            <li key={`${step.from_C} ${step.to_C} ${step.within_h}`}>
              <RuleStep step={step} show={show} />
            </li>
          ))}
        </ul>
      )}
      <p className="answer-why">{sentence(say(verdict.why, show))}</p>
      <PlaceButton
        forecast={forecast}
        index={ruleIndex(forecast, rule)}
        place={verdict.worst.where}
        layer={verdict.worst.layer}
      />
      {verdict.slowest && verdict.notes.some(({ code }) => code.startsWith('rule-slowest')) && (
        <PlaceButton
          forecast={forecast}
          index={ruleIndex(forecast, rule)}
          place={verdict.slowest.where}
          layer={verdict.slowest.layer}
          heading="Last to come down"
        />
      )}
      {verdict.coat && (
        <PlaceButton
          forecast={forecast}
          index={ruleIndex(forecast, rule)}
          place={verdict.coat.where}
          layer={verdict.coat.layer}
          heading="Laid on later, still warmer"
        />
      )}
      <details className="more-notes">
        <summary>{verdict.notes.length > 0 ? 'How it was counted, and the source' : 'Source'}</summary>
        {verdict.notes.map((note) => (
          <p key={note.code} className="answer-note">
            {sentence(say(note, show))}
          </p>
        ))}
        <p className="answer-source">Source: {verdict.source}</p>
      </details>
    </AnswerFrame>
  )
}

function RuleStep({ step, show }: { readonly step: RuleVerdict['steps'][number]; readonly show: Show }): ReactNode {
  const from = show.temperature(step.from_C).replace(/(\.0)?\s.*$/, '')
  const to = show.temperature(step.to_C).replace(/\.0(?=\s)/, '')
  const range = rangeWords(step.early_h, step.late_h)
  if (step.counts === 'inside') {
    const used = step.taken_h ?? step.at_least_h
    return (
      <>
        Between {to} and {from}, {step.within_h > 0 ? `at most ${durationWords(step.within_h)}` : 'not at all'}:{' '}
        {used === undefined ? '' : `${durationWords(used)}${range}, `}
        <b>{stepWords[step.outcome]}</b>
      </>
    )
  }
  return (
    <>
      {from} to {to} within {durationWords(step.within_h)}:{' '}
      {step.taken_h === undefined ? '' : `takes ${durationWords(step.taken_h)}${range}, `}
      <b>{stepWords[step.outcome]}</b>
    </>
  )
}

function rangeWords(early_h: number | undefined, late_h: number | undefined): string {
  if (early_h === undefined) return ''
  return late_h === undefined ? ` (${durationWords(early_h)} or more)` : ` (${durationRange(early_h, late_h)})`
}
