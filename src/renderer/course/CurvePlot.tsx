import { memo, type ReactNode, useMemo } from 'react'
import { Area, CartesianGrid, ComposedChart, Line, ReferenceArea, ReferenceLine, XAxis, YAxis } from 'recharts'

import { DANGER_FILL } from '../parts/Patterns.tsx'
import type { TemperatureUnit } from '../units.ts'
import type { ChartFrame } from './chart-frame.ts'
import { bandField, type CourseModel, type CourseRow, curveField } from './course-model.ts'
import { curveStyle, probeNumber } from './curve-style.ts'
import { crisp, type LinearScale, toPixel } from './linear-scale.ts'
import { degreeLabel, type TemperatureTick } from './temperature-axis.ts'

interface CurvePlotProps {
  readonly model: CourseModel
  readonly frame: ChartFrame
  readonly y: LinearScale
  readonly ticks: readonly TemperatureTick[]
  /** Vertical lines, hours since the start. */
  readonly marks_h: readonly number[]
  readonly danger: { readonly low_C: number; readonly high_C: number }
  readonly unit: TemperatureUnit
}

/**
 * Axes, bands and curves. Redrawn when the forecast, the width or the unit changes and at no other time: the scrubber
 * and what hovers are drawn by others above it. What a new forecast leaves as it is stays the same element, as the
 * chart works through every other one again.
 */
export const CurvePlot = memo(function CurvePlot(props: CurvePlotProps): ReactNode {
  const { model, frame, y, danger, unit } = props
  const { width, plot } = frame
  const margin = useSame({ top: plot.top, right: width - plot.right, bottom: 1, left: 0 })
  return (
    <ComposedChart
      width={width}
      height={plot.bottom + 1}
      data={model.rows as CourseRow[]}
      margin={margin}
      accessibilityLayer={false}
    >
      <Ground {...useSame({ x: frame.x, y, danger, unit, left: plot.left })} {...useTicks(props)} />
      <Curves {...useSame({ keys: model.keys, banded: model.banded, backToFront: model.backToFront })} />
    </ComposedChart>
  )
})

const useTicks = ({ ticks, marks_h }: CurvePlotProps) => ({
  rows: useSame(ticks.map(({ T_C }) => T_C)),
  columns: useSame(marks_h),
})

/** The same value as before as long as it says the same. */
function useSame<T>(value: T): T {
  const key = JSON.stringify(value)
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key is the value
  return useMemo(() => value, [key])
}

interface GroundProps {
  readonly x: LinearScale
  readonly y: LinearScale
  /** Temperatures of the horizontal lines, °C. */
  readonly rows: readonly number[]
  /** Moments of the vertical lines, hours since the start. */
  readonly columns: readonly number[]
  readonly danger: CurvePlotProps['danger']
  readonly unit: TemperatureUnit
  readonly left: number
}

/** Grid, axes and the danger zone. */
const Ground = memo(function Ground({ x, y, rows, columns, danger, unit, left }: GroundProps): ReactNode {
  const limits = [danger.low_C, danger.high_C].filter((T_C) => T_C > y.from && T_C < y.to)
  return (
    <>
      <CartesianGrid
        stroke="var(--rule)"
        horizontalPoints={rows.map((T_C) => crisp(toPixel(y, T_C)))}
        verticalPoints={columns.map((at_h) => crisp(toPixel(x, at_h)))}
      />
      <XAxis dataKey="at_h" type="number" domain={[x.from, x.to]} allowDataOverflow hide />
      <YAxis
        type="number"
        domain={[y.from, y.to]}
        allowDataOverflow
        width={left}
        ticks={[...rows, ...limits]}
        interval={0}
        axisLine={{ stroke: 'var(--ink)', strokeWidth: 1.3 }}
        tickLine={false}
        tick={(tick: { readonly y: number | string; readonly payload: { readonly value: number } }) => (
          <AxisNumber
            y={Number(tick.y)}
            T_C={tick.payload.value}
            limit={limits.includes(tick.payload.value)}
            unit={unit}
            x={left}
          />
        )}
      />
      <ReferenceArea
        y1={Math.max(danger.low_C, y.from)}
        y2={Math.min(danger.high_C, y.to)}
        fill={DANGER_FILL}
        fillOpacity={1}
        ifOverflow="hidden"
      />
      {limits.map((limit) => (
        <ReferenceLine key={limit} y={limit} stroke="var(--brick)" strokeWidth={1.5} />
      ))}
    </>
  )
})

const Curves = memo(function Curves(props: Pick<CourseModel, 'keys' | 'banded' | 'backToFront'>): ReactNode {
  const { keys, banded, backToFront } = props
  return (
    <>
      {banded.map((index) => (
        <Band key={index} name={keys[index]!} index={index} keys={keys} />
      ))}
      {backToFront.map((index) => {
        const style = curveStyle(keys[index]!, probeNumber(keys, keys[index]!))
        return (
          <Line
            key={index}
            dataKey={curveField(index)}
            className={keys[index] === 'core' ? 'curve curve-core' : 'curve'}
            stroke={style.colour}
            strokeWidth={style.width}
            {...(style.dash && { strokeDasharray: style.dash })}
            type="linear"
            dot={false}
            activeDot={false}
            connectNulls={false}
            isAnimationActive={false}
          />
        )
      })}
    </>
  )
})

interface BandProps {
  readonly name: string
  readonly index: number
  readonly keys: readonly string[]
}

function Band({ name, index, keys }: BandProps): ReactNode {
  const style = curveStyle(name, probeNumber(keys, name))
  const edges = name === 'core' ? { stroke: style.colour, strokeWidth: 0.8, strokeOpacity: 0.6 } : { stroke: 'none' }
  return (
    <Area
      dataKey={bandField(index)}
      className={name === 'core' ? 'band band-core' : 'band'}
      fill={style.colour}
      fillOpacity={style.tint / 100}
      type="linear"
      activeDot={false}
      connectNulls={false}
      isAnimationActive={false}
      {...edges}
    />
  )
}

interface AxisNumberProps {
  readonly x: number
  readonly y: number
  readonly T_C: number
  /** A limit of the danger zone: printed in its colour, and bold. */
  readonly limit: boolean
  readonly unit: TemperatureUnit
}

function AxisNumber({ x, y, T_C, limit, unit }: AxisNumberProps): ReactNode {
  return (
    <text x={x - 8} y={y + 4.5} textAnchor="end" className={limit ? 'axis-number axis-limit' : 'axis-number'}>
      {degreeLabel(T_C, unit)}
    </text>
  )
}
