import { type FormEvent, type ReactNode, useId, useRef, useState } from 'react'

import { promisesOf } from '../../core/fitting/on-the-day.ts'
import type { Forecast } from '../../core/forecast-types.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { addProbeAt, addReading } from '../edits/readings.ts'
import { hoursFrom } from '../format-time.ts'
import { tell } from '../notices.ts'
import { MomentInput } from '../parts/MomentInput.tsx'
import { Problem } from '../parts/Problem.tsx'
import { temperatureRange } from '../parts/ranges.ts'
import { usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import { readTyped } from '../typed.ts'
import { shownQuantity, shownUnit, temperature } from '../units.ts'
import { localMoment, nowWithin } from './day-moment.ts'
import { NumberPad } from './NumberPad.tsx'

interface ReadingEntryProps {
  readonly plan: Plan
  readonly forecast: Forecast
}

/** What a probe shows: which, when, how warm. Typed on the pad or on a keyboard; Enter takes it. */
export function ReadingEntry({ plan, forecast }: ReadingEntryProps): ReactNode {
  const probes = plan.probes ?? []
  if (probes.length === 0) return <NoProbe forecast={forecast} />
  return <Entry key={probes.map(({ name }) => name).join('\n')} plan={plan} forecast={forecast} />
}

function NoProbe({ forecast }: { readonly forecast: Forecast }): ReactNode {
  const edit = usePlan((state) => state.edit)
  return (
    <div className="day-no-probe">
      <p>A reading belongs to a probe of the plan, and this plan has none yet.</p>
      <button
        type="button"
        className="button button-first"
        onClick={() => edit('new probe', (plan) => addProbeAt(plan, forecast.core.where))}
      >
        Put a probe at the slowest place
      </button>
    </div>
  )
}

function Entry({ plan, forecast }: ReadingEntryProps): ReactNode {
  const id = useId()
  const field = useRef<HTMLInputElement>(null)
  const edit = usePlan((state) => state.edit)
  const units = useSettings(({ settings }) => settings)
  const probes = plan.probes ?? []
  const end_h = forecast.times_h.at(-1) ?? 0
  const last = plan.readings?.at(-1)
  const [probe, setProbe] = useState(last?.probe ?? probes[0]?.name ?? '')
  // until a time is typed, it is now
  const [typedAt, setTypedAt] = useState<string | null>(null)
  const [text, setText] = useState('')
  const [problem, setProblem] = useState<string | null>(null)
  const now = nowWithin(plan.startsAt, end_h, new Date())
  const at = typedAt ?? now ?? localMoment(plan.startsAt, last?.at_h ?? 0)
  const unit = shownUnit(temperature, units)

  function enter(event?: FormEvent): void {
    event?.preventDefault()
    const at_h = hoursFrom(plan.startsAt, at)
    if (!(at_h >= 0)) {
      setProblem('The plan has not begun then; give a time after its start.')
      return
    }
    const read = readTyped(text, temperature, unit, temperatureRange)
    if (!read.ok) {
      setProblem(read.problem)
      field.current?.focus()
      return
    }
    const reading = { probe, at_h, C: read.value }
    // what was promised before anything was measured is what the day is held against
    edit('reading', (was) => addReading({ ...was, promised: was.promised ?? promisesOf(forecast) }, reading))
    tell(`Reading ${shownQuantity(read.value, unit)} of ${probe} taken`)
    setText('')
    setTypedAt(null)
    setProblem(null)
    field.current?.focus()
  }

  return (
    <form className="reading-entry" onSubmit={enter} aria-label="A reading">
      <div className="field" data-help="day probe">
        <label htmlFor={`${id}-probe`}>Probe</label>
        <div className="box box-choice">
          <select id={`${id}-probe`} value={probe} onChange={(event) => setProbe(event.target.value)}>
            {probes.map(({ name }) => (
              <option key={name} value={name}>
                {name}
              </option>
            ))}
          </select>
        </div>
      </div>
      <div className="field" data-help="day time">
        <label htmlFor={`${id}-at`}>Read at</label>
        <div className="box">
          <MomentInput
            id={`${id}-at`}
            kind="datetime-local"
            value={at}
            near={at}
            none=""
            take={(local) => setTypedAt(local === '' ? null : local)}
          />
          {typedAt === null && now !== null ? <span className="unit">now</span> : null}
        </div>
      </div>
      <div className="field day-value" data-help="day temperature">
        <label htmlFor={`${id}-value`}>Temperature</label>
        <div className="box">
          <input
            ref={field}
            id={`${id}-value`}
            // the pad below serves a finger; a keyboard of its own would cover the course
            inputMode="none"
            autoComplete="off"
            spellCheck={false}
            value={text}
            aria-invalid={problem !== null}
            aria-describedby={problem === null ? undefined : `${id}-problem`}
            onChange={(event) => {
              setText(event.target.value)
              setProblem(null)
            }}
          />
          <span className="unit">{/[a-z°]/i.test(text) ? '' : unit.name}</span>
        </div>
        {problem === null ? null : <Problem id={`${id}-problem`} words={problem} />}
      </div>
      <NumberPad
        other={unit.name === '°C' ? '°F' : '°C'}
        onKey={(key) => {
          setProblem(null)
          setText((was) => padKey(was, key))
        }}
      />
    </form>
  )
}

/** What the pad makes of a text. */
export function padKey(text: string, key: string): string {
  if (key === 'Clear') return ''
  if (key === '−') return text.startsWith('−') ? text.slice(1) : `−${text}`
  if (key.startsWith('°')) return text.includes('°') ? text.replace(/\s*°.*$/, '') : `${text} ${key}`
  const [number = '', unit = ''] = text.split(/(?=\s°)/)
  return key === '.' && number.includes('.') ? text : `${number}${key}${unit}`
}
