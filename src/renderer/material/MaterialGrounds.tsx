import type { ReactNode } from 'react'

import type { MaterialCard } from '../../core/materials/card.ts'
import { type Comparison, MISS_TO_EXPLAIN } from '../../core/materials/measured.ts'
import { sourceWords } from '../../core/sources.ts'
import { say } from '../../core/words/sentences.ts'
import type { Show } from '../../core/words/show.ts'
import { Sentences } from './RecipeResult.tsx'

interface MaterialGroundsProps {
  readonly card: MaterialCard
  readonly show: Show
}

/** What a material rests on: composition, published values beside the model's, what was assumed, sources. */
export function MaterialGrounds({ card: { material, measured }, show }: MaterialGroundsProps): ReactNode {
  const { composition_pct, notes, sources } = material
  const keys = [...new Set([...sources, ...measured.map(({ source }) => source)])]
  return (
    <div className="material-grounds">
      {composition_pct === undefined ? null : <Composition composition_pct={composition_pct} />}
      {measured.length === 0 ? null : <Measured measured={measured} show={show} />}
      <section aria-label="Assumed and weak">
        <h2>Assumed and weak</h2>
        <Sentences sentences={[...new Set(notes.map((note) => say(note, show)))]} />
      </section>
      <section aria-label="Sources">
        <h2>Sources</h2>
        {keys.length === 0 ? <p className="second">None: the figures are the plan’s own.</p> : null}
        <ul className="sentences">
          {keys.map((key) => (
            <li key={key}>{sourceWords(key)}</li>
          ))}
        </ul>
      </section>
    </div>
  )
}

function Composition({ composition_pct }: { readonly composition_pct: Readonly<Record<string, number>> }): ReactNode {
  const parts = Object.entries(composition_pct).filter(([, share]) => share >= 0.05)
  return (
    <section aria-label="Composition">
      <h2>Composition</h2>
      <dl className="figures figures-small">
        {parts.map(([name, share]) => (
          <div key={name} className="figure">
            <dt>{name}</dt>
            <dd>{share.toFixed(1)} %</dd>
          </div>
        ))}
      </dl>
    </section>
  )
}

const propertyWords = {
  k: 'Conductivity',
  rho: 'Density',
  c: 'Heat capacity',
  'freezing point': 'Freezing point',
} as const
const unitWords = { 'W/(m K)': 'W/(m K)', 'kg/m3': 'kg/m³', 'J/(kg K)': 'J/(kg K)', degC: '°C' } as const

function Measured({ measured, show }: { readonly measured: readonly Comparison[]; readonly show: Show }): ReactNode {
  return (
    <section aria-label="Published beside computed">
      <h2>Published beside computed</h2>
      <ul className="measured">
        {measured.map((one) => {
          const off = 100 * one.error
          const far = Math.abs(one.error) > MISS_TO_EXPLAIN
          const at = one.at_C === undefined ? '' : ` at ${show.temperature(one.at_C)}`
          return (
            <li key={`${one.property} ${one.at_C} ${one.source} ${one.measured}`}>
              <b>
                {propertyWords[one.property]}
                {at}
              </b>
              : {show.number(one.measured)} published, {show.number(one.computed)} computed {unitWords[one.unit]},{' '}
              <b className={far ? 'far-off' : undefined}>
                {off < 0 ? '−' : '+'}
                {Math.abs(off).toFixed(1)} %
              </b>
              .{far ? ` More than ${100 * MISS_TO_EXPLAIN} % off: ${one.miss ?? 'no reason known'}.` : ''}
              <br />
              <small>
                {sourceWords(one.source)} ({one.certainty})
              </small>
            </li>
          )
        })}
      </ul>
    </section>
  )
}
