import type { KeyboardEvent, ReactNode } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import { dayAndClock, spokenMoment } from '../format-time.ts'
import { useView } from '../view-store.ts'
import type { ChartFrame } from './chart-frame.ts'
import { type LinearScale, toPixel } from './linear-scale.ts'
import { readCurve } from './read-curve.ts'

interface ScrubberProps {
  readonly forecast: Forecast
  readonly startsAt: string
  readonly frame: ChartFrame
  readonly y: LinearScale
}

const steps_h = [0.05, 0.1, 0.25, 0.5, 1, 2, 4]

/** The moment looked at: a slider on the time axis, with a line through plot, ribbon and clock. */
export function Scrubber({ forecast, startsAt, frame, y }: ScrubberProps): ReactNode {
  const asked_h = useView((view) => view.at_h)
  const scrub = useView((view) => view.scrub)
  const { from, to } = frame.x
  const at_h = Math.min(to, Math.max(from, asked_h))
  const x = toPixel(frame.x, at_h)
  const core = readCurve(forecast.times_h, forecast.curves.core ?? [], at_h)
  const pillWidth = frame.wide ? 148 : 126
  const pillLeft = Math.min(frame.width - pillWidth - 1, Math.max(1, x - pillWidth / 2))
  const onKeyDown = (event: KeyboardEvent): void => {
    const next = keyMoment(event, at_h, from, to)
    if (next === undefined) return
    event.preventDefault()
    scrub(Math.min(to, Math.max(from, next)))
  }
  return (
    <>
      <svg className="scrub-line" width={frame.width} height={frame.height} aria-hidden="true">
        <path d={`M${x} 24V${frame.hours.top}`} />
        {core !== null && <circle cx={x} cy={toPixel(y, core)} r={4.5} />}
      </svg>
      <div
        className="scrub-pill"
        style={{ left: pillLeft, width: pillWidth }}
        role="slider"
        tabIndex={0}
        aria-label="Moment"
        aria-orientation="horizontal"
        aria-valuemin={from}
        aria-valuemax={to}
        aria-valuenow={at_h}
        aria-valuetext={spokenMoment(startsAt, at_h)}
        onKeyDown={onKeyDown}
      >
        {dayAndClock(startsAt, at_h)} · {pillHours(at_h)}
        {frame.wide ? ' h in' : ' h'}
      </div>
    </>
  )
}

const pillHours = (at_h: number): string => String(at_h < 10 ? Number(at_h.toFixed(1)) : Math.round(at_h))

/** Arrows go a small step, page keys a tenth of the course, home and end to its ends. */
function keyMoment(event: KeyboardEvent, at_h: number, from: number, to: number): number | undefined {
  const step = steps_h.find((one) => (to - from) / one <= 400) ?? 8
  const page = Math.max(step, Math.round((to - from) / 10 / step) * step)
  const nudge = event.shiftKey ? page : step
  switch (event.key) {
    case 'ArrowLeft':
    case 'ArrowDown':
      return onStep(at_h - nudge, step, -1)
    case 'ArrowRight':
    case 'ArrowUp':
      return onStep(at_h + nudge, step, 1)
    case 'PageDown':
      return at_h - page
    case 'PageUp':
      return at_h + page
    case 'Home':
      return from
    case 'End':
      return to
    default:
      return undefined
  }
}

/** To the grid of steps, so that keys reach round hours from wherever the pointer left the scrubber. */
function onStep(at_h: number, step: number, direction: 1 | -1): number {
  const steps = at_h / step
  return (direction > 0 ? Math.floor(steps + 1e-6) : Math.ceil(steps - 1e-6)) * step
}
