import type { ReactNode } from 'react'

import type { StageReport, Stretch } from '../../core/forecast-types.ts'
import { useForecast } from '../forecast-client.ts'
import { showIn } from '../format.ts'
import { useOpenPlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import { AirCourse } from './AirCourse.tsx'
import { heatShares, wayWords } from './heat-shares.ts'
import './surroundings.css'

/** A value that changes over a stage: where it begins and ends. */
function fromTo({ start, end }: Stretch, say: (value: number) => string): string {
  const [from, to] = [say(start), say(end)]
  return from === to ? from : `${from} to ${to}`
}

const filmWords = (value: number): string => (value < 10 ? value.toFixed(1) : value.toFixed(0))

/** What a stage's surroundings came to in the forecast: films face by face, the air, and how the heat went. */
export function SurroundingsMeaning({ index }: { readonly index: number }): ReactNode {
  const plan = useOpenPlan()
  const units = useSettings(({ settings }) => settings)
  const forecast = useForecast(({ forecast: found }) => found)
  const made = useForecast((state) => state.made)
  // Stages that are done several times stand several times in the forecast: the first is shown.
  const repeated = plan.stages.slice(0, index).some(({ repeat }) => repeat !== undefined)
  const report = forecast?.surroundings[index]
  if (report === undefined || repeated || report.stage !== plan.stages[index]?.name) return null
  const show = showIn(units, plan.startsAt)
  return (
    <section className="surroundings-meaning" aria-label="What these surroundings mean">
      <h4>What this means{made === plan ? '' : ', before the last change'}</h4>
      {report.air_C === undefined ? null : (
        <p>
          Air {fromTo(report.air_C, show.temperature)}
          {report.air_C.high > Math.max(report.air_C.start, report.air_C.end) + 0.5
            ? `, ${show.temperature(report.air_C.high)} at its warmest`
            : ''}
          .
        </p>
      )}
      {forecast === null ? null : <AirCourse forecast={forecast} index={index} />}
      <FilmTable report={report} />
      <Shares report={report} />
    </section>
  )
}

function FilmTable({ report }: { readonly report: StageReport }): ReactNode {
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">Face</th>
          <th scope="col">Film, W/m²K</th>
          <th scope="col">Heat, kJ</th>
        </tr>
      </thead>
      <tbody>
        {report.faces.map(({ face, film, heat_J }) => (
          <tr key={face}>
            <th scope="row">{face}</th>
            <td>{film === undefined ? 'none' : fromTo(film, filmWords)}</td>
            <td>{kilojoules(heat_J)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

const kilojoules = (heat_J: number): string => {
  const shown = Math.round(heat_J / 1000)
  return shown === 0 ? '0' : `${shown > 0 ? '+' : '−'}${Math.abs(shown)}`
}

function Shares({ report }: { readonly report: StageReport }): ReactNode {
  const shares = heatShares(report)
  if (shares.length === 0) return null
  return (
    <>
      <div className="heat-bars" aria-hidden="true">
        {shares.map(({ way, share }) => (
          <span key={way} className={`heat-part heat-${way}`} style={{ flexGrow: share }} />
        ))}
      </div>
      <ul className="heat-shares" aria-label="How the heat goes">
        {shares.map(({ way, share, into }) => (
          <li key={way}>
            <span className={`heat-bar heat-${way}`} />
            <span>
              {wayWords[way]} {Math.round(100 * share)} %{into ? ' in' : ''}
            </span>
          </li>
        ))}
      </ul>
    </>
  )
}
