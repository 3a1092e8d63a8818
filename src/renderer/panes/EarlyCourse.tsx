import { type ReactNode, useMemo } from 'react'

import type { LikelyCourse } from '../../core/forecast-types.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { stageLetter } from '../../core/words/stage.ts'
import { ChartMarks } from '../course/ChartMarks.tsx'
import { ClockAxis } from '../course/ClockAxis.tsx'
import { CurvePlot } from '../course/CurvePlot.tsx'
import { chartFrame, valueScale } from '../course/chart-frame.ts'
import { curveNames } from '../course/chart-words.ts'
import { clockMarks } from '../course/clock-axis.ts'
import { courseModel } from '../course/course-model.ts'
import { StageBoxes } from '../course/StageRibbon.tsx'
import { temperatureAxis, ticksBeside } from '../course/temperature-axis.ts'
import { useWidth } from '../course/use-width.ts'
import type { Units } from '../units.ts'
import '../course/course.css'

interface EarlyCourseProps {
  readonly course: LikelyCourse
  readonly plan: Plan
  readonly units: Units
  /** Whether its bands are being computed: if not, they were stopped or could not be. */
  readonly coming: boolean
}

/** The likely course alone, until its bands are there. It tells no moments: each is told with its band. */
export function EarlyCourse({ course, plan, units, coming }: EarlyCourseProps): ReactNode {
  const [element, width] = useWidth<HTMLDivElement>()
  return (
    <div className="course">
      <header className="course-head">
        <h2>Course</h2>
        <span className="band-key" role="status">
          <svg width="26" height="14" aria-hidden="true">
            <rect x="0.5" y="0.5" width="25" height="13" className="band-awaited" />
          </svg>
          {coming ? 'early to late: being computed' : 'early to late: not computed'}
        </span>
      </header>
      <figure className="course-figure">
        <div ref={element} className="course-measure">
          {width > 0 && <Drawing course={course} plan={plan} units={units} width={width} />}
        </div>
        <figcaption>
          {coming
            ? 'The likely course. Moments and answers follow with their bands, which are being computed.'
            : 'The likely course. Its bands were not computed, so no moments and answers are told.'}
        </figcaption>
      </figure>
    </div>
  )
}

function Drawing({
  course,
  plan,
  units,
  width,
}: Omit<EarlyCourseProps, 'coming'> & { readonly width: number }): ReactNode {
  const model = useMemo(() => courseModel({ ...course, bands: {} }), [course])
  const frame = chartFrame(width, model)
  const height = frame.plot.bottom - frame.plot.top
  const axis = temperatureAxis(model.lowest_C, model.highest_C, units.temperature, height)
  const y = valueScale(frame, axis)
  const { danger, stages } = course
  const stageNames = stages.map(({ name }, index) => `${stageLetter(index)} ${name}`)
  return (
    <div className="course-drawing" style={{ height: frame.height }}>
      <div className="course-plot" role="img" aria-label="Curves of temperature over time, without early and late">
        <CurvePlot
          {...{ model, frame, y, danger, unit: units.temperature }}
          ticks={ticksBeside(axis, [danger.low_C, danger.high_C], height)}
          marks_h={clockMarks(plan.startsAt, frame.x.from, frame.x.to, frame.plot.right - frame.plot.left)}
        />
        <ChartMarks
          {...{ forecast: course, model, frame, y }}
          words={curveNames(course, model.keys, frame, y)}
          unitSign={`°${units.temperature}`}
          readings={plan.readings ?? []}
        />
      </div>
      <ClockAxis startsAt={plan.startsAt} frame={frame} />
      <StageBoxes stages={stages} frame={frame} label={`Stages: ${stageNames.join('; ')}`} />
    </div>
  )
}
