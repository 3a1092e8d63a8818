import { type ReactNode, useState } from 'react'

import type { Limit } from '../../core/choosing/limit.ts'
import { laterBy, oneNumber, pathOf } from '../../core/choosing/one-number.ts'
import { findBuiltIn } from '../../core/materials/index.ts'
import { valueAt } from '../../core/plan/path.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import type { Show } from '../../core/words/show.ts'
import type { Choice as Option } from '../catalog.ts'
import { Choice } from '../parts/Choice.tsx'
import { usePlan } from '../plan-store.ts'
import { askedOf } from './asked.ts'
import { useDeciding } from './use-deciding.ts'
import { Working } from './Working.tsx'
import './choosing.css'

/** Numbers of a plan that may be looked for, each by its path. */
export function numbersOf(plan: Plan): Option[] {
  const layers = plan.piece.fill.flatMap(({ material, thickness_mm }, index): Option[] => {
    const title = findBuiltIn(material)?.title ?? material
    return [
      ...(thickness_mm === undefined ? [] : [{ id: `fill[${index}].thickness_mm`, title: `Thickness of ${title}` }]),
      { id: `fill[${index}].start_C`, title: `${title}, as warm as poured` },
    ]
  })
  const stages = plan.stages.flatMap(({ name, until, in: where }, index): Option[] => [
    ...(until.after_h === undefined ? [] : [{ id: `stages[${index}].until.after_h`, title: `Hours of ${name}` }]),
    ...(typeof where === 'object' && typeof where.air_C === 'number'
      ? [{ id: `stages[${index}].in.air_C`, title: `Air of ${name}` }]
      : []),
  ])
  return [...layers, ...stages, { id: 'startsAt', title: 'Start of the plan' }]
}

const ends = [
  { id: 'greatest', title: 'the greatest' },
  { id: 'least', title: 'the least' },
] as const

/** The furthest that one number of the plan may go and still meet a question. */
export function LimitPanel({ plan, show }: { readonly plan: Plan; readonly show: Show }): ReactNode {
  const asked = askedOf(plan, show)
  const numbers = numbersOf(plan)
  const [path, choosePath] = useState<string | null>(null)
  const [end, chooseEnd] = useState<'greatest' | 'least'>('greatest')
  const [about, chooseAbout] = useState<string | null>(null)
  const { reply, of, running, problem, ask, cancel } = useDeciding('limit')
  const number = numbers.find(({ id }) => id === path) ?? numbers[0]
  const question = asked.find(({ id }) => id === about) ?? asked[0]
  if (number === undefined || question === undefined) return null
  const start = (): void => {
    const [from, to] = oneNumber(plan, number.id).range ?? [0, 100]
    ask({ plan, path: number.id, question: question.question, end, from, to })
  }
  return (
    <section className="choosing" aria-label="How far it may go">
      <h3>How far it may go</h3>
      <Choice label="Number" value={number.id} groups={[{ title: null, options: numbers }]} onChoose={choosePath} />
      <Choice
        label="Furthest"
        value={end}
        groups={[{ title: null, options: ends }]}
        onChoose={(id) => chooseEnd(id === 'least' ? 'least' : 'greatest')}
      />
      {asked.length > 1 ? (
        <Choice
          label="That still meets"
          value={question.id}
          groups={[{ title: null, options: asked }]}
          onChoose={chooseAbout}
        />
      ) : null}
      <button type="button" className="button" disabled={running !== null} onClick={start}>
        Find it
      </button>
      <Working what="Searching" running={running} problem={problem} cancel={cancel} />
      {reply === null || running !== null ? null : <Found limit={reply} plan={plan} stale={of !== plan} show={show} />}
    </section>
  )
}

/** A number of the plan in the person's units. */
function valueWords({ path, unit }: Limit, value: number, plan: Plan, show: Show): string {
  if (path === 'startsAt') return laterBy(plan.startsAt, 3600 * value).replace('T', ' ')
  if (unit === 'mm') return show.length(value / 1000)
  if (unit === '°C') return show.temperature(value)
  return unit === 'h' ? show.duration(value) : `${show.number(value)} ${unit}`
}

function Found({
  limit,
  plan,
  stale,
  show,
}: {
  readonly limit: Limit
  readonly plan: Plan
  readonly stale: boolean
  readonly show: Show
}): ReactNode {
  const edit = usePlan((state) => state.edit)
  const words = (value: number): string => valueWords(limit, value, plan, show)
  const { value, sure, possible, beyond, monotone, path, unfinished } = limit
  if (unfinished)
    return (
      <div className="choosing-row">
        <p>
          {value === undefined
            ? 'No value that was looked at meets it.'
            : `${words(value)} meets it by its likely course.`}
        </p>
        <p className="second">Stopped before the furthest and its band were found.</p>
      </div>
    )
  if (value === undefined) return <p>No value in the range meets it.</p>
  const known = path === 'startsAt' || typeof valueAt(plan, pathOf(path)) === 'number'
  return (
    <div className="choosing-row">
      <p>
        <b>{beyond ? `${words(value)}, and further: all of the range meets it` : words(value)}</b>
      </p>
      <p>
        {sure === undefined ? 'No value is sure to meet it' : `Sure up to ${words(sure)}`}
        {possible === undefined ? '.' : `, possible up to ${words(possible)}.`}
      </p>
      {monotone ? null : <p>What meets it lies in more than one stretch of the range.</p>}
      {stale ? <p className="second">From before the last change of the plan.</p> : null}
      {sure === undefined || !known ? null : (
        <button
          type="button"
          className="link"
          disabled={stale}
          onClick={() => edit('furthest value', () => oneNumber(plan, path).with(sure))}
        >
          Take the sure one
        </button>
      )}
    </div>
  )
}
