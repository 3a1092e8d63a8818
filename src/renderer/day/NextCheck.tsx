import { type ReactNode, useMemo } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import type { Plan } from '../../core/plan/schema.ts'
import { makeSheet } from '../../core/sheet/sheet.ts'
import type { Show } from '../../core/words/show.ts'

interface NextCheckProps {
  readonly plan: Plan
  readonly forecast: Forecast
  readonly show: Show
  /** The last moment that was read, hours since the start. */
  readonly now_h: number
}

/** The next of the sheet's checks after what was read last. */
export function NextCheck({ plan, forecast, show, now_h }: NextCheckProps): ReactNode {
  const checks = useMemo(() => makeSheet(plan, forecast).checks, [plan, forecast])
  const next = checks.find((check) => check.at_h > now_h + 1e-6)
  if (next === undefined) return null
  return (
    <div className="day-figure">
      <span className="second">Next check</span>
      <b>{show.moment(next.at_h)}</b>
      <span>
        core, expect{' '}
        <strong>
          {show.temperature(next.core.low_C)} to {show.temperature(next.core.high_C)}
        </strong>
      </span>
    </div>
  )
}
