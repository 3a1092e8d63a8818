import { type ReactNode, useMemo } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import type { Show } from '../../core/words/show.ts'
import { temperatureNumber } from '../format.ts'
import { dayAndClock } from '../format-time.ts'
import type { Units } from '../units.ts'
import { courseTable } from './course-table.ts'
import { curveName } from './curve-style.ts'

interface CourseTableProps {
  readonly forecast: Forecast
  readonly startsAt: string
  readonly units: Units
  readonly show: Show
}

/** The chart's numbers as a table: the same curves, at round hours and at the moments that matter. */
export function CourseTable({ forecast, startsAt, units, show }: CourseTableProps): ReactNode {
  const { keys, rows } = useMemo(() => courseTable(forecast), [forecast])
  const degree = `°${units.temperature}`
  const banded = rows.some((row) => row.band)
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
    <section className="course-table" tabIndex={0} aria-label="Course as a table">
      <table>
        <caption>Temperatures in {degree}; hours since the start</caption>
        <thead>
          <tr>
            <th scope="col">When</th>
            <th scope="col" className="number">
              Hours
            </th>
            <th scope="col" className="stage">
              Stage
            </th>
            {keys.map((key) => (
              <th scope="col" key={key} className="number">
                {curveName(key)}
              </th>
            ))}
            {banded && (
              <th scope="col" className="number">
                core, early to late
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.at_h}>
              <th scope="row">{dayAndClock(startsAt, row.at_h)}</th>
              <td className="number">{show.number(Math.round(row.at_h * 10) / 10)}</td>
              <td className="stage">{row.stage}</td>
              {row.values.map((value, index) => (
                <td key={keys[index]} className="number">
                  {value === null ? '–' : temperatureNumber(value, units)}
                </td>
              ))}
              {banded && (
                <td className="number">
                  {row.band
                    ? `${temperatureNumber(row.band[0], units)} to ${temperatureNumber(row.band[1], units)}`
                    : '–'}
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}
