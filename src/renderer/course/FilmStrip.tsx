import { memo, type ReactNode, useMemo } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import { StripPicture } from '../film/StripPicture.tsx'
import { dayAndClock } from '../format-time.ts'
import { useAfterwards } from '../parts/use-afterwards.ts'
import { useView } from '../view-store.ts'
import type { ChartFrame } from './chart-frame.ts'
import { toPixel } from './linear-scale.ts'
import { stripMoments } from './strip-moments.ts'

interface FilmStripProps {
  readonly forecast: Forecast
  readonly startsAt: string
  readonly frame: ChartFrame
  readonly flat: boolean
}

const buttonWidth = 50

/** Sections at their moments under the time axis; each moves the scrubber there. */
export const FilmStrip = memo(function FilmStrip(props: FilmStripProps): ReactNode {
  const { forecast, startsAt, frame, flat } = useAfterwards(props)
  const hoursPerPixel = (frame.x.to - frame.x.from) / (frame.plot.right - frame.plot.left)
  const moments = useMemo(() => stripMoments(forecast, (buttonWidth + 6) * hoursPerPixel), [forecast, hoursPerPixel])
  return (
    <div className="film-strip" style={{ top: frame.height + 2 }}>
      {moments.map((at_h) => {
        const middle = toPixel(frame.x, at_h)
        const left = Math.min(frame.width - buttonWidth, Math.max(frame.plot.left - 6, middle - buttonWidth / 2))
        return <StripButton key={at_h} forecast={forecast} at_h={at_h} left={left} startsAt={startsAt} flat={flat} />
      })}
    </div>
  )
})

interface StripButtonProps {
  readonly forecast: Forecast
  readonly at_h: number
  readonly left: number
  readonly startsAt: string
  readonly flat: boolean
}

function StripButton({ forecast, at_h, left, startsAt, flat }: StripButtonProps): ReactNode {
  const scrub = useView((view) => view.scrub)
  const current = useView((view) => Math.abs(view.at_h - at_h) < 1e-6)
  return (
    <button
      type="button"
      className="strip-button"
      style={{ left }}
      aria-label={`Section at ${dayAndClock(startsAt, at_h)}`}
      aria-pressed={current}
      onClick={() => scrub(at_h)}
    >
      <StripPicture films={forecast.film} at_h={at_h} flat={flat} />
    </button>
  )
}
