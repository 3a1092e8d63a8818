import { memo, type ReactNode, useId, useMemo, useState } from 'react'

import { cardRange, type MaterialCard } from '../../core/materials/card.ts'
import type { Show } from '../../core/words/show.ts'
import type { Units } from '../units.ts'
import { PropertyChart } from './PropertyChart.tsx'
import { plotSentence, propertyPlots } from './property-plots.ts'

interface MaterialCurvesProps {
  readonly card: MaterialCard
  readonly show: Show
  readonly units: Units
}

/** The curves of a material, and what they say at one temperature. */
export const MaterialCurves = memo(function MaterialCurves({ card, show, units }: MaterialCurvesProps): ReactNode {
  const id = useId()
  const { material, curves } = card
  const [low_C, high_C] = cardRange(material)
  const [asked_C, setAsked] = useState(20)
  const at_C = Math.min(Math.max(asked_C, low_C), high_C)
  const plots = useMemo(() => propertyPlots(curves), [curves])
  const point = material.at(at_C)
  const cooling = material.cooling?.at(at_C).solid_fat_share
  const readings: readonly (readonly [string, string])[] = [
    ['Conductivity', `${point.k.toFixed(3)} W/(m K)`],
    ['Heat capacity', `${(point.c / 1000).toFixed(2)} kJ/(kg K)`],
    ['Density', `${point.rho.toFixed(0)} kg/m³`],
    ['Heat content', `${(point.enthalpy_J_kg / 1000).toFixed(1).replace('-', '−')} kJ/kg`],
    ['Ice', `${(100 * point.ice_share).toFixed(0)} % of the water`],
    [
      'Solid fat',
      `${(100 * point.solid_fat_share).toFixed(0)} %${cooling === undefined ? '' : `, cooling ${(100 * cooling).toFixed(0)} %`}`,
    ],
  ]
  return (
    <section className="material-curves" aria-label="Over temperature">
      <h2>Over temperature</h2>
      <div className="reading-off" data-help="material temperature">
        <label htmlFor={id}>At</label>
        <input
          id={id}
          type="range"
          min={Math.ceil(low_C)}
          max={Math.floor(high_C)}
          step={1}
          value={at_C}
          aria-valuetext={show.temperature(at_C)}
          onChange={(event) => setAsked(Number(event.target.value))}
        />
        <b>{show.temperature(at_C)}</b>
      </div>
      <dl className="figures figures-small">
        {readings.map(([name, value]) => (
          <div key={name} className="figure">
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <div className="property-charts">
        {plots.map((plot) => (
          <PropertyChart
            key={plot.id}
            card={card}
            plot={plot}
            sentence={plotSentence(plot, curves, show.temperature)}
            unit={units.temperature}
            at_C={at_C}
          />
        ))}
      </div>
    </section>
  )
})
