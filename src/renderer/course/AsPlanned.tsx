import { type ReactNode, useId } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import { PLANNED_FILL } from '../parts/Patterns.tsx'
import type { ChartFrame } from './chart-frame.ts'
import { curveWithin } from './detail-region.ts'
import { type LinearScale, toPixel } from './linear-scale.ts'

interface AsPlannedProps {
  /** As it was forecast before anything was measured. */
  readonly planned: Forecast
  readonly frame: ChartFrame
  readonly y: LinearScale
}

/** The core as it was planned, under the course that the readings have made: hatched the other way, with dashed edges. */
export function AsPlanned({ planned, frame, y }: AsPlannedProps): ReactNode {
  const clip = useId()
  const { plot, x } = frame
  const within = { from_h: x.from, to_h: x.to }
  const points = (curve: readonly (number | null)[] | undefined): string[] =>
    curve === undefined
      ? []
      : curveWithin(planned.times_h, curve, within).map(
          ({ at_h, value }) => `${toPixel(x, at_h).toFixed(1)} ${toPixel(y, value).toFixed(1)}`,
        )
  const { core } = planned.bands
  const [low, high, likely] = [points(core?.low), points(core?.high), points(planned.curves.core)]
  if (likely.length === 0) return null
  return (
    <svg className="chart-marks as-planned" width={frame.width} height={plot.bottom + 1} aria-hidden="true">
      <clipPath id={clip}>
        <rect x={plot.left} y={plot.top} width={plot.right - plot.left} height={plot.bottom - plot.top} />
      </clipPath>
      <g clipPath={`url(#${clip})`}>
        {low.length === 0 ? null : (
          <>
            <path d={`M${[...low, ...high.toReversed()].join('L')}Z`} fill={PLANNED_FILL} />
            <path d={`M${low.join('L')}M${high.join('L')}`} className="planned-edge" />
          </>
        )}
        <path d={`M${likely.join('L')}`} className="planned-line" />
      </g>
    </svg>
  )
}
