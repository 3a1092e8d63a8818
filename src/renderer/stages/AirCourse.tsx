import type { ReactNode } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'

/** Of the drawing, in its own units; it is stretched to the width that there is. */
const [WIDTH, HEIGHT] = [200, 48]
/** Air that changes by less is not worth drawing, K. */
const LEAST_K = 0.5

interface AirCourseProps {
  readonly forecast: Forecast
  readonly index: number
}

/** The line of the air through a stage, between its coldest and its warmest, which the words above name. */
export function AirCourse({ forecast, index }: AirCourseProps): ReactNode {
  const stage = forecast.stages[index]
  const air = forecast.curves.air
  if (stage === undefined || air === undefined) return null
  const { from_h, to_h } = stage
  const points = forecast.times_h.flatMap((h, i): [number, number][] => {
    const T_C = air[i]
    return h < from_h || h > to_h || typeof T_C !== 'number' ? [] : [[h, T_C]]
  })
  const all = points.map(([, T_C]) => T_C)
  const [low, high] = [Math.min(...all), Math.max(...all)]
  if (!(high - low > LEAST_K) || !(to_h > from_h)) return null
  const path = points.map(([h, T_C]) => {
    const x = (WIDTH * (h - from_h)) / (to_h - from_h)
    const y = (HEIGHT * (high - T_C)) / (high - low)
    return `${x.toFixed(1)} ${y.toFixed(1)}`
  })
  return (
    <svg className="air-course" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} preserveAspectRatio="none" aria-hidden="true">
      <path className="air-limits" d={`M0 0H${WIDTH}M0 ${HEIGHT}H${WIDTH}`} />
      <path d={`M${path.join('L')}`} />
    </svg>
  )
}
