import { type PointerEvent, type ReactNode, useEffect, useState } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import type { Show } from '../../core/words/show.ts'
import { dayAndClock } from '../format-time.ts'
import { useView } from '../view-store.ts'
import { CurveSample } from './CurveSample.tsx'
import type { ChartFrame } from './chart-frame.ts'
import type { CourseModel } from './course-model.ts'
import { curveName } from './curve-style.ts'
import { fromPixel, toPixel } from './linear-scale.ts'
import { readCurve } from './read-curve.ts'

interface PlotTouchProps {
  readonly forecast: Forecast
  readonly model: CourseModel
  readonly startsAt: string
  readonly frame: ChartFrame
  readonly show: Show
}

/** The plot's surface for pointers: pressing or dragging moves the scrubber, hovering reads the curves. */
export function PlotTouch({ forecast, model, startsAt, frame, show }: PlotTouchProps): ReactNode {
  const scrub = useView((view) => view.scrub)
  const [hover_h, hover] = useState<number | null>(null)
  const { plot, x } = frame
  useEffect(() => {
    if (hover_h === null) return
    const dismiss = (event: KeyboardEvent): void => {
      if (event.key === 'Escape') hover(null)
    }
    window.addEventListener('keydown', dismiss)
    return () => window.removeEventListener('keydown', dismiss)
  }, [hover_h])
  const momentOf = (event: PointerEvent<HTMLDivElement>): number => {
    const left = event.currentTarget.getBoundingClientRect().left
    return Math.min(x.to, Math.max(x.from, fromPixel(x, event.clientX - left + plot.left)))
  }
  return (
    <>
      <div
        className="plot-touch"
        data-testid="plot"
        style={{ left: plot.left, top: 26, width: plot.right - plot.left, height: frame.hours.top - 26 }}
        onPointerDown={(event) => {
          if (event.button !== 0) return
          event.currentTarget.setPointerCapture(event.pointerId)
          scrub(momentOf(event))
          hover(null)
        }}
        onPointerMove={(event) => {
          if (event.currentTarget.hasPointerCapture(event.pointerId)) scrub(momentOf(event))
          else if (event.pointerType === 'mouse') hover(momentOf(event))
        }}
        onPointerLeave={() => hover(null)}
      />
      {hover_h !== null && (
        <HoverReading forecast={forecast} model={model} startsAt={startsAt} frame={frame} show={show} at_h={hover_h} />
      )}
    </>
  )
}

function HoverReading({
  forecast,
  model,
  startsAt,
  frame,
  show,
  at_h,
}: PlotTouchProps & { readonly at_h: number }): ReactNode {
  const x = toPixel(frame.x, at_h)
  const side = x > (frame.plot.left + frame.plot.right) / 2 ? { right: frame.width - x + 12 } : { left: x + 12 }
  return (
    <>
      <svg className="hover-line" width={frame.width} height={frame.plot.bottom} aria-hidden="true">
        <path d={`M${x} ${frame.plot.top}V${frame.plot.bottom}`} />
      </svg>
      <div className="hover-reading" style={{ ...side, top: frame.plot.top + 6 }} aria-hidden="true">
        <b>{dayAndClock(startsAt, at_h)}</b>
        <table>
          <tbody>
            {model.keys.map((key) => {
              const value = readCurve(forecast.times_h, forecast.curves[key]!, at_h)
              return (
                <tr key={key}>
                  <td className="hover-name">
                    <CurveSample name={key} keys={model.keys} length={24} /> {curveName(key)}
                  </td>
                  <td className="hover-value">{value === null ? 'not yet' : show.temperature(value)}</td>
                </tr>
              )
            })}
          </tbody>
        </table>
      </div>
    </>
  )
}
