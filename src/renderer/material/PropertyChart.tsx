import { memo, type ReactNode } from 'react'
import { CartesianGrid, ComposedChart, Line, ReferenceLine, XAxis, YAxis } from 'recharts'

import type { MaterialCard } from '../../core/materials/card.ts'
import { degreeLabel, temperatureAxis } from '../course/temperature-axis.ts'
import { useWidth } from '../parts/use-width.ts'
import type { TemperatureUnit } from '../units.ts'
import { namePlaces } from './curve-name-places.ts'
import { type PropertyPlot, valueScale } from './property-plots.ts'

interface PropertyChartProps {
  readonly card: MaterialCard
  readonly plot: PropertyPlot
  readonly sentence: string
  readonly unit: TemperatureUnit
  /** Temperature at which values are read off, °C. */
  readonly at_C: number
}

const HEIGHT = 210
const NARROW = 400
const LEFT = 46
const RIGHT = 12
const TOP = 22
const BOTTOM = 26

/** One property over temperature. */
export const PropertyChart = memo(function PropertyChart(props: PropertyChartProps): ReactNode {
  const [box, width] = useWidth<HTMLDivElement>(420)
  const { plot, sentence } = props
  return (
    <figure className="property-chart">
      <figcaption>
        <b>{plot.title}</b> <span className="second">{plot.unit}</span>
      </figcaption>
      <div ref={box} className="property-plot" role="img" aria-label={`${plot.title}: ${sentence}`}>
        {width > 0 ? <Plot {...props} width={width} /> : null}
      </div>
    </figure>
  )
})

function Plot({ card, plot, unit, at_C, width }: PropertyChartProps & { readonly width: number }): ReactNode {
  const { curves, material, boils_C } = card
  const low = curves.T_C[0] ?? -40
  const high = curves.T_C.at(-1) ?? 100
  const scale = valueScale(plot, curves)
  const ticks = temperatureAxis(low, high, unit, width - LEFT - RIGHT, 46).ticks.filter(
    ({ T_C }) => T_C >= low && T_C <= high,
  )
  const rows = curves.T_C.map((T_C, i) => ({
    T_C,
    ...Object.fromEntries(plot.lines.map(({ key }) => [key, (curves[key]?.[i] ?? 0) * plot.factor])),
  }))
  // both marks can't stand side by side there
  const narrow = width < NARROW
  const marks = [
    ...(material.freezes_C === undefined ? [] : [{ T_C: material.freezes_C, words: 'freezes' }]),
    ...(boils_C === undefined ? [] : [{ T_C: boils_C, words: 'boils' }]),
  ]
  const x = (T_C: number): number => LEFT + ((T_C - low) / (high - low)) * (width - LEFT - RIGHT)
  const share = (value: number): number =>
    scale.kind === 'log'
      ? Math.log(value / scale.from) / Math.log(scale.to / scale.from)
      : (value - scale.from) / (scale.to - scale.from)
  const y = (value: number): number => HEIGHT - BOTTOM - share(value) * (HEIGHT - TOP - BOTTOM)
  return (
    <>
      <ComposedChart
        width={width}
        height={HEIGHT}
        data={rows}
        margin={{ top: TOP, right: RIGHT, bottom: 0, left: 0 }}
        accessibilityLayer={false}
      >
        <CartesianGrid
          stroke="var(--rule)"
          horizontalPoints={scale.ticks.map(y)}
          verticalPoints={ticks.map(({ T_C }) => x(T_C))}
        />
        <XAxis
          dataKey="T_C"
          type="number"
          domain={[low, high]}
          ticks={ticks.map(({ T_C }) => T_C)}
          interval={0}
          height={BOTTOM}
          axisLine={{ stroke: 'var(--ink)', strokeWidth: 1.3 }}
          tickLine={false}
          tick={(tick: { readonly x: number | string; readonly payload: { readonly value: number } }) => (
            <text x={Number(tick.x)} y={HEIGHT - 8} textAnchor="middle" className="axis-number">
              {degreeLabel(tick.payload.value, unit)}
            </text>
          )}
        />
        <YAxis
          type="number"
          scale={scale.kind}
          domain={[scale.from, scale.to]}
          allowDataOverflow
          width={LEFT}
          ticks={[...scale.ticks]}
          interval={0}
          axisLine={{ stroke: 'var(--ink)', strokeWidth: 1.3 }}
          tickLine={false}
          tick={(tick: { readonly y: number | string; readonly payload: { readonly value: number } }) => (
            <text x={LEFT - 8} y={Number(tick.y) + 4.5} textAnchor="end" className="axis-number">
              {String(tick.payload.value).replace('-', '−')}
            </text>
          )}
        />
        {marks.map(({ T_C, words }) => (
          <ReferenceLine key={words} x={T_C} stroke="var(--ink2)" strokeDasharray="1.5 3" />
        ))}
        <ReferenceLine x={at_C} stroke="var(--enamel)" strokeWidth={2} />
        {plot.lines.map(({ key, colour, width: thick, dash }) => (
          <Line
            key={key}
            dataKey={key}
            className="curve"
            stroke={colour}
            strokeWidth={thick}
            {...(dash !== undefined && { strokeDasharray: dash })}
            type="linear"
            dot={false}
            activeDot={false}
            isAnimationActive={false}
          />
        ))}
      </ComposedChart>
      <svg className="property-words" width={width} height={HEIGHT} aria-hidden="true">
        {marks.map(({ T_C, words }) => (
          <text
            key={words}
            x={x(T_C) + (T_C > (low + high) / 2 ? -4 : 4)}
            y={narrow && words === 'boils' ? TOP + 14 : TOP - 6}
            textAnchor={T_C > (low + high) / 2 ? 'end' : 'start'}
            className="mark-words"
          >
            {words} {degreeLabel(T_C, unit)} °{unit}
          </text>
        ))}
        {plot.lines.length > 1
          ? namePlaces(plot.lines, curves).map(({ line, T_C, value, side }) => (
              <text
                key={line.key}
                x={x(T_C) + (side === 'left' ? -8 : 8)}
                textAnchor={side === 'left' ? 'end' : 'start'}
                y={y(value * plot.factor) + 4}
                className="curve-words"
                style={{ fill: line.colour }}
              >
                {line.name}
              </text>
            ))
          : null}
      </svg>
    </>
  )
}
