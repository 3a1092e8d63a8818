import type { ReactNode } from 'react'

import { useForecast } from '../forecast-client.ts'
import { forecastWord } from '../forecast-word.ts'
import { cancelForecast, forecastNow } from '../forecasting.ts'
import { useLate } from '../parts/use-late.ts'
import { usePlanFaults } from '../plan-faults.ts'
import { usePlan } from '../plan-store.ts'
import { useDrawn } from './drawn.ts'

/** Beyond this a run is spoken of, ms. */
const LONG_MS = 1000

/** Where the forecast stands, in the title block. A long run shows what is done and can be stopped. */
export function ForecastCell(): ReactNode {
  const forecast = useForecast()
  const plan = usePlan()
  const faults = usePlanFaults().length
  const long = useLate(forecast.running !== null, LONG_MS)
  const { state, word, more } = forecastWord(forecast, plan, faults, long)
  const { running } = forecast
  const drawn = useDrawn()
  const busy = running !== null || (faults === 0 && forecast.made !== plan.history?.present)
  const again = running === null && faults === 0 && (state === 'stale' || state === 'failed' || forecast.cancelled)
  return (
    <div
      className={`title-cell forecast-cell forecast-${state}`}
      title={more}
      aria-busy={busy || drawn.forecast !== forecast.forecast}
    >
      <span className="title-label">Forecast</span>
      <span className="forecast-word">
        <span className="forecast-dot" aria-hidden="true" />
        <span role="status">{word}</span>
        {long && running !== null ? (
          <button type="button" className="link" onClick={cancelForecast}>
            Cancel
          </button>
        ) : null}
        {again ? (
          <button type="button" className="link" onClick={forecastNow}>
            Compute
          </button>
        ) : null}
      </span>
      {long && running !== null ? (
        <progress max="1" value={running.share} aria-label={running.doing === '' ? 'Computing' : running.doing} />
      ) : null}
    </div>
  )
}
