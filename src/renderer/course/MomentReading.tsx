import type { ReactNode } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import type { Show } from '../../core/words/show.ts'
import { dateAndClock, durationWords } from '../format-time.ts'
import { useView } from '../view-store.ts'
import { CurveSample } from './CurveSample.tsx'
import { stageAt } from './course-table.ts'
import { curveName, readingOrder } from './curve-style.ts'
import { readCurve } from './read-curve.ts'

interface MomentReadingProps {
  readonly forecast: Forecast
  readonly startsAt: string
  readonly show: Show
}

/** The curves' values at the scrubber's moment. */
export function MomentReading({ forecast, startsAt, show }: MomentReadingProps): ReactNode {
  const asked_h = useView((view) => view.at_h)
  const at_h = Math.min(forecast.times_h.at(-1) ?? 0, asked_h)
  const keys = readingOrder(Object.keys(forecast.curves))
  return (
    <div className="moment-reading">
      <h3>{dateAndClock(startsAt, at_h)}</h3>
      <p className="moment-stage">
        {stageAt(forecast, at_h)?.name}, {durationWords(at_h)} in
      </p>
      <table>
        <caption className="unseen">Temperatures at this moment</caption>
        <tbody>
          {keys.map((key) => {
            const value = readCurve(forecast.times_h, forecast.curves[key]!, at_h)
            return (
              <tr key={key}>
                <th scope="row" className="reading-name">
                  <CurveSample name={key} keys={keys} length={32} />
                  {curveName(key)}
                </th>
                <td className="reading-value">{value === null ? 'not yet there' : show.temperature(value)}</td>
              </tr>
            )
          })}
        </tbody>
      </table>
      <PlaceNote forecast={forecast} at_h={at_h} show={show} />
    </div>
  )
}

/** The core's early and late value, and where the core was found. */
function PlaceNote({
  forecast,
  at_h,
  show,
}: {
  readonly forecast: Forecast
  readonly at_h: number
  readonly show: Show
}): ReactNode {
  const band = forecast.bands.core
  const low = band ? readCurve(forecast.times_h, band.low, at_h) : null
  const high = band ? readCurve(forecast.times_h, band.high, at_h) : null
  const { layer, depth_m } = forecast.core
  const title = forecast.film.flatMap((film) => film.layers).find((one) => one.name === layer)?.title ?? layer
  const spread =
    low === null || high === null ? '' : `Core early to late ${show.temperature(low)} to ${show.temperature(high)}. `
  return (
    <p className="place-note">
      {spread}Slowest place: {title}, {show.length(depth_m)} below the nearest face.
    </p>
  )
}
