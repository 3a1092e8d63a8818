import type { ReactNode } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import { say } from '../../core/words/sentences.ts'
import type { Show } from '../../core/words/show.ts'
import { AnswerFrame } from './AnswerFrame.tsx'
import { PlaceButton } from './PlaceButton.tsx'
import type { Report } from './reports.ts'
import { sentence } from './sentence.ts'

interface ReportAnswerProps {
  readonly forecast: Forecast
  readonly report: Report
  readonly index: number
  readonly show: Show
  readonly open: boolean
  readonly onToggle: () => void
}

/** Something that is told of the piece unasked: what it carries, what a coat does, raw egg, growth. */
export function ReportAnswer({ forecast, report, index, show, open, onToggle }: ReportAnswerProps): ReactNode {
  const { question, word, mark, why, notes, place, source } = report
  return (
    <AnswerFrame index={index} {...{ mark, question, word, open, onToggle }} short={null}>
      <p className="answer-why">{sentence(say(why, show))}</p>
      {place === undefined ? null : (
        <PlaceButton forecast={forecast} index={index} place={place.where} layer={place.layer} />
      )}
      {notes.map((note) => (
        <p key={note.code} className="answer-note">
          {sentence(say(note, show))}
        </p>
      ))}
      {source === undefined ? null : <p className="answer-source">Source: {source}</p>}
    </AnswerFrame>
  )
}
