import { type ReactNode, useEffect, useId, useMemo, useRef, useState } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import { type Divider, dividers, type Log } from '../../core/plan/log.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { temperatureNumber } from '../format.ts'
import { dayAndClock, durationWords, hoursFrom } from '../format-time.ts'
import { tell } from '../notices.ts'
import { Choice } from '../parts/Choice.tsx'
import { MomentInput } from '../parts/MomentInput.tsx'
import { usePlan } from '../plan-store.ts'
import { metricUnits } from '../units.ts'
import { localMoment } from './day-moment.ts'
import {
  leaveLog,
  logBegins,
  logPlaces,
  type Said,
  type Understood,
  understand,
  useLogImport,
  withLogReadings,
  workshopHours,
} from './log-import.ts'

interface LogDialogProps {
  readonly plan: Plan
  readonly forecast: Forecast
}

/** What a logger's file can't say itself is asked before its readings are taken. */
export function LogDialog(props: LogDialogProps): ReactNode {
  const text = useLogImport((state) => state.text)
  return text === null ? null : <Questions {...props} text={text} />
}

function Questions({ plan, forecast, text }: LogDialogProps & { readonly text: string }): ReactNode {
  const id = useId()
  const dialog = useRef<HTMLDialogElement>(null)
  const edit = usePlan((state) => state.edit)
  const [said, setSaid] = useState<Said>({})
  const found = useMemo(() => understand(plan, text, said), [plan, text, said])
  useEffect(() => dialog.current?.showModal(), [])
  // Divided otherwise the file has other columns, of which nothing is said yet.
  const say = (more: Said): void => setSaid((was) => (more.divider === undefined ? { ...was, ...more } : more))
  return (
    <dialog ref={dialog} className="log-dialog" aria-labelledby={`${id}-title`} onClose={leaveLog}>
      <form
        method="dialog"
        onSubmit={(event) => {
          event.preventDefault()
          if (found.problem !== null) return
          edit('logger file', (was) => withLogReadings(was, found.readings, forecast))
          tell(`${found.readings.length} readings taken`)
          dialog.current?.close()
        }}
      >
        <h2 id={`${id}-title`}>A logger’s file</h2>
        <p role="status" className={found.problem === null ? undefined : 'day-problem'}>
          {found.problem ?? summaryOf(found, plan)}
        </p>
        <FileFields plan={plan} log={found.log} said={said} say={say} />
        {found.log === null ? null : <ColumnTable plan={plan} found={found} log={found.log} said={said} say={say} />}
        <div className="dialog-answers">
          <button
            type="submit"
            className="button button-first"
            aria-disabled={found.problem === null ? undefined : true}
          >
            Take these readings
          </button>
          <button type="button" className="button" onClick={() => dialog.current?.close()}>
            Cancel
          </button>
        </div>
      </form>
    </dialog>
  )
}

/** "96 readings of heart, Fri 18:00 to Sat 06:00. One gap of 2 h from Sat 01:00." */
function summaryOf({ readings, log }: Understood, { startsAt }: Plan): string {
  const [first, last] = [readings[0]?.at_h ?? 0, readings.at(-1)?.at_h ?? 0]
  const probes = [...new Set(readings.map(({ probe }) => probe))].join(', ')
  const span = `${dayAndClock(startsAt, first)} to ${dayAndClock(startsAt, last)}`
  const gaps = log?.gaps ?? []
  const longest = Math.max(0, ...gaps.map(({ from, to }) => (to - from) / 3600))
  const missing =
    gaps.length === 0
      ? ''
      : ` ${gaps.length === 1 ? 'One gap' : `${gaps.length} gaps`}, of up to ${durationWords(longest)}.`
  return `${readings.length} readings of ${probes}, ${span}.${missing}`
}

const dividerWords: Readonly<Record<Divider, string>> = { ';': 'Semicolon', '\t': 'Tab', ',': 'Comma' }

interface FieldsProps {
  readonly plan: Plan
  readonly log: Log | null
  readonly said: Said
  readonly say: (more: Said) => void
}

/** How the file is written, and by which clock. */
function FileFields({ plan, log, said, say }: FieldsProps): ReactNode {
  const id = useId()
  const [fast, setFast] = useState('')
  const dated = log?.from !== undefined
  const begins_h = said.begins_h ?? (log === null ? 0 : logBegins(log, plan))
  return (
    <div className="field-row">
      <Choice
        label="Columns divided by"
        value={said.divider ?? log?.divider ?? ';'}
        groups={[{ title: null, options: dividers.map((one) => ({ id: one, title: dividerWords[one] })) }]}
        onChoose={(one) => say({ divider: one as Divider })}
      />
      {log?.dayFirst === undefined ? null : (
        <Choice
          label="Dates with slashes"
          value={log.dayFirst ? 'day' : 'month'}
          groups={[
            {
              title: null,
              options: [
                { id: 'day', title: 'Day first, 31/12' },
                { id: 'month', title: 'Month first, 12/31' },
              ],
            },
          ]}
          onChoose={(one) => say({ dayFirst: one === 'day' })}
        />
      )}
      {log?.zoned === true ? (
        <Choice
          label="Workshop’s clock"
          value={String(said.zone_h ?? workshopHours(plan))}
          groups={[{ title: null, options: zoneChoices }]}
          onChoose={(one) => say({ zone_h: Number(one) })}
        />
      ) : null}
      {log === null || dated ? null : (
        <div className="field">
          <label htmlFor={`${id}-from`}>First line read at</label>
          <div className="box">
            <MomentInput
              id={`${id}-from`}
              kind="datetime-local"
              value={localMoment(plan.startsAt, begins_h)}
              near={plan.startsAt}
              none=""
              take={(local) => (local === '' ? undefined : say({ begins_h: hoursFrom(plan.startsAt, local) }))}
            />
          </div>
        </div>
      )}
      <div className="field">
        <label htmlFor={`${id}-fast`}>Its clock is fast by</label>
        <div className="box">
          <input
            id={`${id}-fast`}
            inputMode="decimal"
            placeholder="0"
            value={fast}
            onChange={({ target: { value } }) => {
              setFast(value)
              const minutes = Number(value.replace('−', '-').replace(',', '.'))
              if (Number.isFinite(minutes)) say({ fast_min: minutes })
            }}
          />
          <span className="unit">min</span>
        </div>
      </div>
    </div>
  )
}

const zoneChoices = Array.from({ length: 2 * 26 + 1 }, (_, index) => index / 2 - 12).map((hours) => {
  const [whole, half] = [Math.floor(Math.abs(hours)), Math.abs(hours) % 1 === 0 ? '' : ':30']
  return { id: String(hours), title: hours === 0 ? 'UTC' : `UTC ${hours < 0 ? '−' : '+'}${whole}${half}` }
})

interface ColumnTableProps extends FieldsProps {
  readonly log: Log
  readonly found: Understood
}

/** Each column: of which probe it is, and in which degrees. */
function ColumnTable({ plan, log, found, said, say }: ColumnTableProps): ReactNode {
  const places = [{ id: '', title: 'leave it out' }, ...logPlaces(plan).map((name) => ({ id: name, title: name }))]
  const put = <One,>(list: readonly One[], index: number, value: One): One[] =>
    list.map((one, at) => (at === index ? value : one))
  const fahrenheit = log.columns.map((column) => column.fahrenheit)
  return (
    <table className="log-columns">
      <thead>
        <tr>
          <th scope="col">Column</th>
          <th scope="col">First reading</th>
          <th scope="col">Degrees</th>
          <th scope="col">Is of</th>
        </tr>
      </thead>
      <tbody>
        {log.columns.map(({ title, T_C }, index) => {
          const name = title === '' ? `Column ${index + 1}` : title
          const first = T_C.find((value) => Number.isFinite(value))
          const degree = fahrenheit[index] === true ? 'F' : 'C'
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: columns have no other name that is theirs alone
            <tr key={index}>
              <th scope="row">{name}</th>
              <td className="number">
                {first === undefined ? 'none' : temperatureNumber(first, { ...metricUnits, temperature: degree })}
              </td>
              <td>
                <Choice
                  look="inline"
                  label={`Degrees of ${name}`}
                  value={degree}
                  groups={[
                    {
                      title: null,
                      options: [
                        { id: 'C', title: '°C' },
                        { id: 'F', title: '°F' },
                      ],
                    },
                  ]}
                  onChoose={(one) => say({ fahrenheit: put(said.fahrenheit ?? fahrenheit, index, one === 'F') })}
                />
              </td>
              <td>
                <Choice
                  look="inline"
                  label={`Probe of ${name}`}
                  value={found.columns[index] ?? ''}
                  groups={[{ title: null, options: places }]}
                  onChoose={(one) => say({ columns: put(found.columns, index, one === '' ? null : one) })}
                />
              </td>
            </tr>
          )
        })}
      </tbody>
    </table>
  )
}
