import { memo, type ReactNode, useMemo, useState } from 'react'

import { CourseChart } from '../course/CourseChart.tsx'
import { CourseTable } from '../course/CourseTable.tsx'
import { courseSentence } from '../course/course-sentence.ts'
import { GiveOut } from '../course/GiveOut.tsx'
import { FilmPane } from '../film/FilmPane.tsx'
import { Icon } from '../icons.tsx'
import { useAfterwards } from '../parts/use-afterwards.ts'
import type { ForecastPaneProps } from './pane-props.ts'
import '../course/course.css'

/** Which band is drawn. */
function bandWords({ bands, sampled_runs }: ForecastPaneProps['forecast']['model']): string {
  if (bands === 'sampled') return `early to late, sampled from ${sampled_runs} pieces`
  return bands === 'own' ? 'early to late, estimated' : 'early to late, as wide as before the change'
}

/** Curves over the stages, the section as a film, and the same numbers as a table. */
export const Course = memo(function Course({ forecast, plan, stale, show, units }: ForecastPaneProps): ReactNode {
  const [asTable, showTable] = useState(false)
  const filmed = useAfterwards(useMemo(() => ({ forecast, plan, show, units }), [forecast, plan, show, units]))
  const banded = Object.keys(forecast.bands).length > 0
  return (
    <div className={stale === null ? 'course' : 'course stale'}>
      <header className="course-head">
        <h2>Course</h2>
        <span className="course-deeds">
          <GiveOut
            forecast={forecast}
            name={plan.title || 'Course'}
            sentence={courseSentence(forecast, plan.startsAt, show)}
          />
          <button type="button" className="table-button" aria-pressed={asTable} onClick={() => showTable(!asTable)}>
            <Icon name="table" /> As a table
          </button>
        </span>
        {banded && (
          <span className="band-key">
            <svg width="26" height="14" aria-hidden="true">
              <rect x="0.5" y="0.5" width="25" height="13" className="band-swatch" />
            </svg>
            {bandWords(forecast.model)}
          </span>
        )}
      </header>
      {asTable && <CourseTable forecast={forecast} startsAt={plan.startsAt} units={units} show={show} />}
      <CourseChart forecast={forecast} plan={plan} show={show} units={units} />
      <FilmPane {...filmed} />
    </div>
  )
})
