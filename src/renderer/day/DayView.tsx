import { type ReactNode, useMemo } from 'react'

import { CourseChart } from '../course/CourseChart.tsx'
import type { ForecastPaneProps } from '../panes/pane-props.ts'
import { useShown } from '../panes/use-shown.ts'
import { PLANNED_FILL } from '../parts/Patterns.tsx'
import { useOpenPlan } from '../plan-store.ts'
import { DayAnswers } from './DayAnswers.tsx'
import { FitReport } from './FitReport.tsx'
import { LogButton } from './LogButton.tsx'
import { LogDialog } from './LogDialog.tsx'
import { NextCheck } from './NextCheck.tsx'
import { ReadingEntry } from './ReadingEntry.tsx'
import { ReadingList } from './ReadingList.tsx'
import { useDay } from './use-day.ts'
import '../course/course.css'
import '../answers/answers.css'
import './day.css'

/** The day itself: readings as they come, how the plan stands by them, and when it will be ready now. */
export function DayView(): ReactNode {
  const shown = useShown()
  if (shown === null)
    return (
      <main className="day-view">
        <h1 className="unseen">On the day</h1>
        <p className="second">Readings follow the first forecast.</p>
      </main>
    )
  return <Day {...shown} />
}

/** How the two bands of the core are told apart. */
function PlannedKey(): ReactNode {
  return (
    <p className="second planned-key">
      <svg width="26" height="14" aria-hidden="true">
        <rect x="0.5" y="0.5" width="25" height="13" fill={PLANNED_FILL} className="planned-edge" />
      </svg>
      core as planned, hatched with dashed edges; from now on it is tinted
    </p>
  )
}

function Day({ forecast: planned, show, units, stale }: ForecastPaneProps): ReactNode {
  const plan = useOpenPlan()
  const { day, running, problem } = useDay(plan)
  const forecast = day?.forecast ?? planned
  const readings = plan.readings ?? []
  const now_h = readings.at(-1)?.at_h ?? 0
  const measured = day !== null
  const chart = useMemo(
    () => ({ forecast, plan, show, units, ...(measured ? { planned } : {}) }),
    [forecast, planned, measured, plan, show, units],
  )
  return (
    <main className="day-view">
      <h1 className="unseen">On the day</h1>
      <LogDialog plan={plan} forecast={planned} />
      <section className="day-entry" aria-label="Readings">
        <div className="heading-row">
          <h2>Readings</h2>
        </div>
        <ReadingEntry plan={plan} forecast={planned} />
        <LogButton />
        <ReadingList plan={plan} planned={planned} units={units} />
      </section>
      <section className="day-course" aria-label="How it stands">
        {running === null ? null : (
          <p className="day-running" role="status">
            Working out what the readings mean{' '}
            <progress max="1" value={running} aria-label="Working out what the readings mean" />
          </p>
        )}
        {problem === null ? null : (
          <p className="day-problem" role="alert">
            {problem}
          </p>
        )}
        {stale === null ? null : <p className="second">The plan’s forecast is from before your change of {stale}.</p>}
        {day === null ? (
          <p className="day-statement day-none">
            <b>{readings.length === 0 ? 'Nothing is measured yet' : 'One moment'}</b>
            <span className="second">The first reading shows whether the piece is on its course.</span>
          </p>
        ) : (
          <DayAnswers day={day} plan={plan} show={show} />
        )}
        <NextCheck plan={plan} forecast={forecast} show={show} now_h={now_h} />
        <div className="heading-row">
          <h2>Course</h2>
          <span className="second">{day === null ? 'as planned' : 'from now on, by the readings'}</span>
        </div>
        <CourseChart {...chart} />
        {day === null ? null : <PlannedKey />}
        {day?.fit == null ? null : (
          <FitReport fit={day.fit} keepable={day.keepable} plan={plan} show={show} units={units} />
        )}
      </section>
    </main>
  )
}
