import type { ReactNode } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { readCurve } from '../course/read-curve.ts'
import { removeReading } from '../edits/readings.ts'
import { temperatureNumber } from '../format.ts'
import { dayAndClock } from '../format-time.ts'
import { IconButton } from '../parts/IconButton.tsx'
import { QuantityField } from '../parts/QuantityField.tsx'
import { temperatureRange } from '../parts/ranges.ts'
import { usePlan } from '../plan-store.ts'
import { temperature, type Units } from '../units.ts'

interface ReadingListProps {
  readonly plan: Plan
  /** As it was planned, before any reading. */
  readonly planned: Forecast
  readonly units: Units
}

/** What was read so far beside what was expected, the latest first. A value can be put right, or taken away. */
export function ReadingList({ plan, planned, units }: ReadingListProps): ReactNode {
  const edit = usePlan((state) => state.edit)
  const rows = (plan.readings ?? []).map((reading, index) => ({ reading, index })).toReversed()
  if (rows.length === 0)
    return <p className="second">Nothing read yet. What you enter stands here and on the course.</p>
  return (
    <section className="reading-list" aria-labelledby="readings-so-far">
      <div className="heading-row">
        <h3 id="readings-so-far">So far</h3>
        <span className="second">expected as planned</span>
      </div>
      <table>
        <thead>
          <tr>
            <th scope="col">Time</th>
            <th scope="col">Probe</th>
            <th scope="col" className="number">
              Read
            </th>
            <th scope="col" className="number">
              Expected
            </th>
            <th scope="col" className="number">
              Off by
            </th>
            <th scope="col">
              <span className="unseen">Take away</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ reading, index }) => {
            const { expected, off } = expectedAt(planned, reading, units)
            const when = dayAndClock(plan.startsAt, reading.at_h)
            return (
              <tr key={`${reading.probe} ${reading.at_h}`}>
                <th scope="row">{when}</th>
                <td>{reading.probe}</td>
                <td className="number" data-help="day temperature">
                  <QuantityField
                    look="inline"
                    path={`readings[${index}].C`}
                    label={`Reading of ${reading.probe}, ${when}`}
                    quantity={temperature}
                    range={temperatureRange}
                    change="reading"
                  />
                </td>
                <td className="number">{expected}</td>
                <td className="number">{off}</td>
                <td>
                  <IconButton
                    icon="bin"
                    label={`Take the reading of ${when} away`}
                    onPress={() => edit('reading taken away', (now) => removeReading(now, index))}
                  />
                </td>
              </tr>
            )
          })}
        </tbody>
      </table>
    </section>
  )
}

/** "9.5 to 13.9", and how far off the middle of it the reading is. */
function expectedAt(
  { times_h, curves, bands }: Forecast,
  { probe, at_h, C }: NonNullable<Plan['readings']>[number],
  units: Units,
): { readonly expected: string; readonly off: string } {
  const key = `probe:${probe}`
  const likely = readCurve(times_h, curves[key] ?? [], at_h)
  if (likely === null) return { expected: 'not known', off: '' }
  const low = readCurve(times_h, bands[key]?.low ?? [], at_h) ?? likely
  const high = readCurve(times_h, bands[key]?.high ?? [], at_h) ?? likely
  const off = (C - likely) * (units.temperature === 'F' ? 1.8 : 1)
  const [from, to] = [temperatureNumber(low, units), temperatureNumber(high, units)]
  return {
    expected: from === to ? from : `${from} to ${to}`,
    off: `${off < -0.05 ? '−' : off > 0.05 ? '+' : ''}${Math.abs(off).toFixed(1)}`,
  }
}
