import type { ReactNode } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import type { Show } from '../../core/words/show.ts'
import { clockTime } from '../format-time.ts'
import type { Units } from '../units.ts'
import { hourStep } from './clock-axis.ts'
import { curveWithin, type DetailRegion } from './detail-region.ts'
import { crisp, type LinearScale, toPixel } from './linear-scale.ts'
import { temperatureAxis } from './temperature-axis.ts'

interface DetailProps {
  readonly forecast: Forecast
  readonly region: DetailRegion
  readonly startsAt: string
  readonly units: Units
  readonly show: Show
}

const [WIDTH, HEIGHT, LEFT, TOP, BOTTOM] = [300, 150, 40, 8, 24] as const

/** Detail A: the core as it passes what was asked, with its band, larger than the course has it. */
export function Detail({ forecast, region, startsAt, units, show }: DetailProps): ReactNode {
  const { from_h, to_h, low_C, high_C, T_C } = region
  const x: LinearScale = { from: from_h, to: to_h, start: LEFT, end: WIDTH - 4 }
  const y: LinearScale = { from: low_C, to: high_C, start: HEIGHT - BOTTOM, end: TOP }
  const point = ({ at_h, value }: { readonly at_h: number; readonly value: number }): string =>
    `${toPixel(x, at_h).toFixed(1)} ${toPixel(y, value).toFixed(1)}`
  const path = (curve: readonly (number | null)[] | undefined): string[] =>
    curve === undefined ? [] : curveWithin(forecast.times_h, curve, region).map(point)
  const { core } = forecast.bands
  const band = [...path(core?.low), ...path(core?.high).toReversed()]
  const step = hourStep(from_h, to_h, WIDTH - LEFT, 54)
  const first = Math.ceil(from_h / step) * step
  const ticks = Array.from({ length: Math.floor((to_h - first) / step) + 1 }, (_, index) => first + index * step)
  return (
    <figure className="detail">
      <figcaption>
        <b>Detail A</b> core about {show.temperature(T_C).replace('.0', '')}
      </figcaption>
      <svg width={WIDTH} height={HEIGHT} viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true" className="detail-plot">
        <clipPath id="detail-plot">
          <rect x={LEFT} y={TOP} width={WIDTH - 4 - LEFT} height={HEIGHT - BOTTOM - TOP} />
        </clipPath>
        {temperatureAxis(low_C, high_C, units.temperature, HEIGHT - BOTTOM - TOP, 26)
          .ticks.filter((tick) => tick.T_C > low_C && tick.T_C < high_C)
          .map((tick) => (
            <g key={tick.label}>
              <path d={`M${LEFT} ${crisp(toPixel(y, tick.T_C))}H${WIDTH - 4}`} className="residual-grid" />
              <text x={LEFT - 6} y={toPixel(y, tick.T_C) + 4.5} textAnchor="end" className="axis-number">
                {tick.label}
              </text>
            </g>
          ))}
        {ticks.map((at_h) => (
          <text key={at_h} x={toPixel(x, at_h)} y={HEIGHT - 6} textAnchor="middle" className="axis-number">
            {clockTime(startsAt, at_h)}
          </text>
        ))}
        <g clipPath="url(#detail-plot)">
          <path d={`M${band.join('L')}Z`} className="detail-band" />
          <path d={`M${path(forecast.curves.core).join('L')}`} className="detail-core" />
          <path d={`M${LEFT} ${toPixel(y, T_C)}H${WIDTH - 4}`} className="asked-line" />
        </g>
        <rect x={LEFT} y={TOP} width={WIDTH - 4 - LEFT} height={HEIGHT - BOTTOM - TOP} className="detail-frame" />
      </svg>
    </figure>
  )
}
