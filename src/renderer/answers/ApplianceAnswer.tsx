import type { ReactNode } from 'react'

import type { ApplianceReport } from '../../core/forecast-types.ts'
import { say } from '../../core/words/sentences.ts'
import type { Show } from '../../core/words/show.ts'
import { AnswerFrame } from './AnswerFrame.tsx'
import { sentence } from './sentence.ts'

interface ApplianceAnswerProps {
  readonly report: ApplianceReport
  readonly index: number
  readonly show: Show
  readonly open: boolean
  readonly onToggle: () => void
}

/** Whether an oven, fridge or freezer copes with the piece: how far its air goes, for how long, and how hard it works. */
export function ApplianceAnswer({ report, index, show, open, onToggle }: ApplianceAnswerProps): ReactNode {
  const copes = report.answer === 'copes'
  const { extreme_low_C: low, extreme_high_C: high, beyond_low_h, beyond_high_h } = report
  return (
    <AnswerFrame
      index={index}
      mark={copes ? 'yes' : 'no'}
      question={`Does it cope in “${report.stage}”?`}
      word={copes ? 'Copes' : 'Overloaded'}
      open={open}
      onToggle={onToggle}
      short={<p>{sentence(say(report.why, show))}</p>}
    >
      {low === undefined || high === undefined ? null : (
        <p>
          {report.followed === 'goods' ? 'What else lies in it' : 'Its air'}: {show.temperature(report.extreme_C)} at
          the {report.above ? 'warmest' : 'coolest'}, likely between {show.temperature(low)} and{' '}
          {show.temperature(high)}.
        </p>
      )}
      {beyond_low_h === undefined || beyond_high_h === undefined || beyond_high_h === 0 ? null : (
        <p>
          {report.above ? 'Above' : 'Below'} {show.temperature(report.limit_C)} for {show.duration(beyond_low_h)} to{' '}
          {show.duration(beyond_high_h)}.
        </p>
      )}
      <p>
        {show.number(report.energy_MJ)} MJ moved
        {report.duty === undefined ? '' : `, ${Math.round(100 * report.duty)} % of its power`}.
      </p>
      {report.rating_kg_24h === undefined || report.asked_kg_24h === undefined ? null : (
        <p>
          It is asked to freeze what {show.mass(report.asked_kg_24h)} of a maker’s test load give in a day; its rating
          is {show.mass(report.rating_kg_24h)}.
        </p>
      )}
      {report.notes.map((note) => (
        <p key={note.code} className="answer-note">
          {sentence(say(note, show))}
        </p>
      ))}
    </AnswerFrame>
  )
}
