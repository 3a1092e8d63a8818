import type { ReactNode } from 'react'

import { clockTime } from '../format-time.ts'
import type { ChartFrame } from './chart-frame.ts'
import { clockMarks, days, hourStep, hourTicks, midnights, nights } from './clock-axis.ts'
import { labelWidth } from './label-places.ts'
import { toPixel } from './linear-scale.ts'

interface ClockAxisProps {
  readonly startsAt: string
  readonly frame: ChartFrame
}

const longCourse_h = 48

/** Days and nights of the workshop, and below them hours since the start. */
export function ClockAxis({ startsAt, frame }: ClockAxisProps): ReactNode {
  const { x, plot } = frame
  const height = frame.height - frame.clock.top
  const hoursY = frame.hours.top - frame.clock.top
  const width = plot.right - plot.left
  const step = hourStep(x.from, x.to, width, frame.wide ? 60 : 44)
  const short = x.to - x.from <= longCourse_h
  return (
    <svg className="clock-axis" style={{ top: frame.clock.top }} width={frame.width} height={height} aria-hidden="true">
      <path d={`M${plot.left} 4.5H${plot.right}`} className="axis-line" />
      {nights(startsAt, x.from, x.to).map((night) => (
        <rect
          key={night.from_h}
          x={toPixel(x, night.from_h)}
          y={2}
          width={toPixel(x, night.to_h) - toPixel(x, night.from_h)}
          height={5}
          className="night"
        />
      ))}
      {frame.wide && (
        <text x={plot.left - 6} y={9} textAnchor="end" className="axis-number">
          night
        </text>
      )}
      {midnights(startsAt, x.from, x.to).map((at_h) => (
        <path key={at_h} d={`M${toPixel(x, at_h)} 0V9`} className="midnight" />
      ))}
      {short ? <Clocks startsAt={startsAt} frame={frame} /> : <DayNames startsAt={startsAt} frame={frame} />}
      {hourTicks(x.from, x.to, step).map((at_h) => (
        <g key={at_h}>
          <path d={`M${toPixel(x, at_h)} ${hoursY - 2}v4`} className="axis-line" />
          {toPixel(x, at_h) < plot.right - (frame.wide ? 44 : 22) && (
            <text x={toPixel(x, at_h)} y={hoursY + 15} textAnchor="middle" className="axis-number">
              {at_h}
            </text>
          )}
        </g>
      ))}
      <text x={plot.right} y={hoursY + 15} textAnchor="end" className="axis-number">
        {frame.wide ? 'hours' : 'h'}
      </text>
    </svg>
  )
}

function DayNames({ startsAt, frame }: ClockAxisProps): ReactNode {
  return days(startsAt, frame.x.from, frame.x.to).map((day) => {
    const [from, to] = [toPixel(frame.x, day.from_h), toPixel(frame.x, day.to_h)]
    const offered = frame.wide ? day.names : day.names.slice(-1)
    const name = offered.find((one) => labelWidth(one, 13) + 6 <= to - from)
    return (
      name && (
        <text key={day.from_h} x={(from + to) / 2} y={21} textAnchor="middle" className="axis-number axis-day">
          {name}
        </text>
      )
    )
  })
}

/** Clock hours, with the day's name at its first mark. */
function Clocks({ startsAt, frame }: ClockAxisProps): ReactNode {
  const { x, plot } = frame
  return clockMarks(startsAt, x.from, x.to, plot.right - plot.left).map((at_h) => {
    const pixel = toPixel(x, at_h)
    if (pixel < plot.left + 14 || pixel > plot.right - 14) return null
    return (
      <text key={at_h} x={pixel} y={21} textAnchor="middle" className="axis-number axis-day">
        {clockTime(startsAt, at_h)}
      </text>
    )
  })
}
