import { type ReactNode, useMemo } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import type { Check } from '../../core/sheet/checks.ts'
import { makeSheet } from '../../core/sheet/sheet.ts'
import type { Show } from '../../core/words/show.ts'

interface NextCheckProps {
  readonly plan: Plan
  readonly forecast: Forecast
  readonly show: Show
  /** The last moment that was read, hours since the start. */
  readonly now_h: number
}

/** When a check that waits for something may come; one that is set by the clock has no band. */
function NextBand({ check, show }: { readonly check: Check; readonly show: Show }): ReactNode {
  if (check.early_h === undefined) return null
  const late = check.late_h === undefined ? 'after the end of the plan' : show.moment(check.late_h)
  return (
    <span>
      between {show.moment(check.early_h)} and {late}
    </span>
  )
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
      <NextBand check={next} show={show} />
      <span>
        core, expect{' '}
        <strong>
          {show.temperature(next.core.low_C)} to {show.temperature(next.core.high_C)}
        </strong>
      </span>
    </div>
  )
}
