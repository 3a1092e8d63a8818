import { memo, type ReactNode, useState } from 'react'

import { ApplianceAnswer } from '../answers/ApplianceAnswer.tsx'
import { Cautions } from '../answers/Cautions.tsx'
import { ModelNotes } from '../answers/ModelNotes.tsx'
import { byUrgency, firstOpen, pressingFirst, ruleMarks } from '../answers/questions.ts'
import { ReportAnswer } from '../answers/ReportAnswer.tsx'
import { RuleAnswer } from '../answers/RuleAnswer.tsx'
import { reportsOf } from '../answers/reports.ts'
import { TargetAnswer } from '../answers/TargetAnswer.tsx'
import { useView } from '../view-store.ts'
import type { ForecastPaneProps } from './pane-props.ts'
import '../answers/answers.css'

/** Each question with its verdict, time, band and reason; rules; cautions; how it was computed. */
export const Answers = memo(function Answers(props: ForecastPaneProps): ReactNode {
  const { forecast, plan, stale, show, beside } = props
  // What the person opened or closed; all others are as the forecast would have them.
  const [chosen, choose] = useState<ReadonlyMap<number, boolean>>(new Map())
  const first = firstOpen(forecast)
  const lit = useView((view) => view.answer)
  const isOpen = (index: number): boolean => chosen.get(index) ?? (index === first || index === lit)
  const toggle = (index: number) => () => choose(new Map(chosen).set(index, !isOpen(index)))
  const nothing = forecast.answers.length === 0 && forecast.safety.length === 0
  const after = forecast.answers.length
  const frame = (index: number) => ({ open: isOpen(index), onToggle: toggle(index) })
  const entries = [
    ...byUrgency(forecast.answers).map((answer) => ({
      mark: answer.answer,
      node: (
        <TargetAnswer key={`target ${answer.index}`} {...{ forecast, plan, show, answer }} {...frame(answer.index)} />
      ),
    })),
    ...forecast.safety.map((verdict, rule) => ({
      mark: ruleMarks[verdict.answer],
      node: <RuleAnswer key={`rule ${verdict.rule}`} {...{ forecast, rule, show }} {...frame(after + rule)} />,
    })),
    ...forecast.appliances.map((report, at) => {
      const index = after + forecast.safety.length + at
      return {
        mark: report.answer === 'copes' ? ('yes' as const) : ('no' as const),
        node: <ApplianceAnswer key={`appliance ${report.index}`} {...{ report, show, index }} {...frame(index)} />,
      }
    }),
    ...reportsOf(forecast, plan.startsAt).map((report, at) => {
      const index = after + forecast.safety.length + forecast.appliances.length + at
      return {
        mark: report.mark,
        node: <ReportAnswer key={report.key} {...{ forecast, report, index, show }} {...frame(index)} />,
      }
    }),
  ]
  return (
    <div className={stale === null ? 'answers' : 'answers stale'}>
      <header className="answers-head">
        <h2>Answers</h2>
        {beside}
      </header>
      {stale !== null && <p className="stale-note">From before “{stale}”.</p>}
      {forecast.model.bands === 'sampled' && (
        <p className="stale-note">Bands of answers and rules: sampled from {forecast.model.sampled_runs} pieces.</p>
      )}
      {nothing && <p className="answers-none">Nothing is asked of this piece yet.</p>}
      {pressingFirst(entries).map(({ node }) => node)}
      <Cautions cautions={forecast.cautions} show={show} />
      <ModelNotes model={forecast.model} show={show} />
    </div>
  )
})
