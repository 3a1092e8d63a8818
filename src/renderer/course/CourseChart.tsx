import { type ReactNode, useId, useMemo } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import type { ForecastPaneProps } from '../panes/pane-props.ts'
import { IconButton } from '../parts/IconButton.tsx'
import { AsPlanned } from './AsPlanned.tsx'
import { ChartMarks } from './ChartMarks.tsx'
import { ClockAxis } from './ClockAxis.tsx'
import { CurvePlot } from './CurvePlot.tsx'
import { type ChartFrame, chartFrame, valueScale } from './chart-frame.ts'
import { chartWords } from './chart-words.ts'
import { clockMarks } from './clock-axis.ts'
import { courseModel } from './course-model.ts'
import { courseSentence, dangerWords } from './course-sentence.ts'
import { Detail } from './Detail.tsx'
import { type DetailRegion, detailRegion } from './detail-region.ts'
import { FilmStrip } from './FilmStrip.tsx'
import { type LinearScale, toPixel } from './linear-scale.ts'
import { PlotTouch } from './PlotTouch.tsx'
import { RibbonTools } from './RibbonTools.tsx'
import { RibbonTouch } from './RibbonTouch.tsx'
import { Scrubber } from './Scrubber.tsx'
import { StageRibbon } from './StageRibbon.tsx'
import { targetMarks } from './target-marks.ts'
import { temperatureAxis, ticksBeside } from './temperature-axis.ts'
import { useWidth } from './use-width.ts'
import { useZoom } from './use-zoom.ts'

const stripHeight = 52

type CourseChartProps = Pick<ForecastPaneProps, 'forecast' | 'plan' | 'show' | 'units'> & {
  /** As it was forecast before anything was measured. */
  readonly planned?: Forecast
}

/** The course of temperatures over stage ribbon and clock, with the scrubber. */
export function CourseChart(props: CourseChartProps): ReactNode {
  const [element, width] = useWidth<HTMLDivElement>()
  const sentence = useId()
  const { times_h } = props.forecast
  const zoom = useZoom(element, times_h[0] ?? 0, times_h.at(-1) ?? 0)
  return (
    <figure className="course-figure" aria-labelledby={sentence}>
      <div ref={element} className={zoom.times === 1 ? 'course-measure' : 'course-measure course-zoomed'}>
        {width > 0 && <Drawing {...props} width={width * zoom.times} />}
      </div>
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset would bring its own frame and legend */}
      <div className="zoom-bar" role="group" aria-label="Zoom of the course">
        <IconButton icon="minus" label="Zoom out" disabled={!zoom.canFall} onPress={zoom.fall} />
        <span role="status">{zoom.times === 1 ? 'Whole course' : `${zoom.times} times`}</span>
        <IconButton icon="plus" label="Zoom in" disabled={!zoom.canRise} onPress={zoom.rise} />
      </div>
      <RibbonTools />
      <figcaption id={sentence}>{courseSentence(props.forecast, props.plan.startsAt, props.show)}</figcaption>
    </figure>
  )
}

function Drawing({
  forecast,
  planned,
  plan,
  show,
  units,
  width,
}: CourseChartProps & { readonly width: number }): ReactNode {
  const model = useMemo(() => courseModel(forecast), [forecast])
  const frame = useMemo(() => chartFrame(width, model), [width, model])
  const axis = useMemo(
    () => temperatureAxis(model.lowest_C, model.highest_C, units.temperature, frame.plot.bottom - frame.plot.top),
    [model, units.temperature, frame],
  )
  const y = useMemo(() => valueScale(frame, axis), [frame, axis])
  const ticks = useMemo(
    () => ticksBeside(axis, [forecast.danger.low_C, forecast.danger.high_C], frame.plot.bottom - frame.plot.top),
    [axis, forecast, frame],
  )
  const marks_h = useMemo(
    () => clockMarks(plan.startsAt, frame.x.from, frame.x.to, frame.plot.right - frame.plot.left),
    [plan.startsAt, frame],
  )
  const targets = useMemo(() => targetMarks(forecast, plan, show), [forecast, plan, show])
  const words = useMemo(() => {
    const danger = dangerWords(forecast, plan.startsAt, show)
    return chartWords(forecast, model.keys, targets, danger, frame, y)
  }, [forecast, plan, show, model, targets, frame, y])
  const detail = useMemo(() => detailRegion(forecast, targets, frame, y), [forecast, targets, frame, y])
  return (
    <>
      <div className="course-drawing" style={{ height: frame.height + (frame.wide ? stripHeight : 0) }}>
        <div className="course-plot" role="img" aria-label="Curves of temperature over time">
          <CurvePlot {...{ model, frame, y, ticks, marks_h, danger: forecast.danger, unit: units.temperature }} />
          <ChartMarks
            {...{ forecast, model, frame, y, words }}
            unitSign={`°${units.temperature}`}
            readings={plan.readings ?? []}
          />
          {planned === undefined ? null : <AsPlanned planned={planned} frame={frame} y={y} />}
          {detail === undefined ? null : <DetailMark region={detail} frame={frame} y={y} />}
        </div>
        <Scrubber forecast={forecast} startsAt={plan.startsAt} frame={frame} y={y} />
        <ClockAxis startsAt={plan.startsAt} frame={frame} />
        <PlotTouch forecast={forecast} model={model} startsAt={plan.startsAt} frame={frame} show={show} />
        <RibbonTouch plan={plan} spans={forecast.stages} frame={frame} />
        <StageRibbon stages={forecast.stages} plan={plan} frame={frame} show={show} />
        {frame.wide && (
          <FilmStrip
            forecast={forecast}
            startsAt={plan.startsAt}
            frame={frame}
            flat={plan.piece.shape.kind === 'sheet'}
          />
        )}
      </div>
      {detail === undefined ? null : (
        <Detail forecast={forecast} region={detail} startsAt={plan.startsAt} units={units} show={show} />
      )}
    </>
  )
}

/** The part of the course that is drawn larger, framed and lettered. */
function DetailMark({
  region,
  frame,
  y,
}: {
  readonly region: DetailRegion
  readonly frame: ChartFrame
  readonly y: LinearScale
}): ReactNode {
  const [left, right] = [toPixel(frame.x, region.from_h), toPixel(frame.x, region.to_h)]
  const [top, bottom] = [toPixel(y, region.high_C), toPixel(y, region.low_C)]
  const beside = right < frame.plot.right - 16
  return (
    <svg className="chart-marks" width={frame.width} height={frame.plot.bottom + 1} aria-hidden="true">
      <rect x={left} y={top} width={right - left} height={bottom - top} className="detail-frame" />
      <text
        x={beside ? right + 4 : left - 4}
        y={bottom}
        textAnchor={beside ? 'start' : 'end'}
        className="chart-words curve-name"
      >
        A
      </text>
    </svg>
  )
}
