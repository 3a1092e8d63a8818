import type { ReactNode } from 'react'

import type { Answer, Forecast } from '../../core/forecast-types.ts'
import { say } from '../../core/words/sentences.ts'
import type { ForecastPaneProps } from '../panes/pane-props.ts'
import { AnswerFrame } from './AnswerFrame.tsx'
import { PlaceButton } from './PlaceButton.tsx'
import { type Likely, likelyWords, marginWords, questionOf, verdictWords } from './questions.ts'
import { sentence } from './sentence.ts'
import { Track } from './Track.tsx'

interface TargetAnswerProps extends Pick<ForecastPaneProps, 'plan' | 'show'> {
  readonly forecast: Forecast
  readonly answer: Answer
  readonly open: boolean
  readonly onToggle: () => void
}

export function TargetAnswer({ forecast, plan, show, answer, open, onToggle }: TargetAnswerProps): ReactNode {
  const target = plan.targets?.[answer.index]
  const likely = likelyWords(answer, plan.startsAt)
  const margin = marginWords(answer)
  return (
    <AnswerFrame
      index={answer.index}
      mark={answer.answer}
      question={target ? questionOf(target, show) : answer.target}
      word={verdictWords[answer.answer]}
      open={open}
      onToggle={onToggle}
      short={open ? <LikelyLarge likely={likely} /> : <LikelyShort likely={likely} margin={margin} />}
    >
      <Track answer={answer} startsAt={plan.startsAt} />
      {margin && <p className="answer-margin">{sentence(margin)}</p>}
      <p className="answer-why">{sentence(say(answer.why, show))}</p>
      <PlaceButton forecast={forecast} index={answer.index} place={answer.where} layer={answer.layer} />
      {answer.notes?.map((note) => (
        <p key={say(note, show)}>{sentence(say(note, show))}</p>
      ))}
      {answer.sources?.map((source) => (
        <p key={source} className="answer-source">
          Source: {source}
        </p>
      ))}
    </AnswerFrame>
  )
}

const notReached = 'Not reached within the plan.'

function LikelyLarge({ likely }: { readonly likely: Likely | undefined }): ReactNode {
  if (!likely) return <p>{notReached}</p>
  return (
    <p className="answer-likely">
      <b>{likely.moment}</b>
      {likely.band && (
        <span>
          <span className="unseen">early to late </span>
          {likely.band}
        </span>
      )}
    </p>
  )
}

function LikelyShort({
  likely,
  margin,
}: {
  readonly likely: Likely | undefined
  readonly margin: string | undefined
}): ReactNode {
  if (!likely) return <p>{notReached}</p>
  return (
    <p>
      <b>{likely.moment}</b>
      {likely.band && <> ({likely.band})</>}
      {margin && `; ${margin}`}.
    </p>
  )
}
