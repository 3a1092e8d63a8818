import { type ReactNode, useId } from 'react'

import type { FittedReading } from '../../core/fitting/fit-types.ts'
import type { Show } from '../../core/words/show.ts'
import { ClockAxis } from '../course/ClockAxis.tsx'
import type { ChartFrame } from '../course/chart-frame.ts'
import { markerPaths } from '../course/curve-style.ts'
import { crisp, type LinearScale, toPixel } from '../course/linear-scale.ts'
import { useWidth } from '../course/use-width.ts'
import type { Units } from '../units.ts'
import {
  probeMarkers,
  type ResidualScale,
  residualRows,
  residualScale,
  residualSentence,
  signedDifference,
} from './residual-plot.ts'

interface ResidualPlotProps {
  readonly readings: readonly FittedReading[]
  readonly startsAt: string
  readonly show: Show
  readonly units: Units
}

const HEIGHT = 150
const [LEFT, RIGHT, TOP] = [48, 14, 8] as const
const wideFrom = 500

/** Measured less computed over time, after the fit: what is left should scatter about zero. */
export function ResidualPlot(props: ResidualPlotProps): ReactNode {
  const { readings, startsAt, show, units } = props
  const sentence = useId()
  const [element, width] = useWidth<HTMLDivElement>()
  if (readings.length === 0) return null
  const scale = residualScale(readings, units)
  return (
    <figure className="residuals" aria-labelledby={sentence}>
      <figcaption id={sentence}>{residualSentence(readings, scale, startsAt, show)}</figcaption>
      <div ref={element} className="course-measure">
        {width > 0 && <Drawing {...props} scale={scale} width={width} />}
      </div>
      <ResidualTable {...props} />
    </figure>
  )
}

type DrawingProps = ResidualPlotProps & { readonly scale: ResidualScale; readonly width: number }

function frameOf(readings: readonly FittedReading[], width: number): ChartFrame {
  const wide = width > wideFrom
  const plot = { left: LEFT, right: Math.max(LEFT + 40, width - RIGHT), top: TOP, bottom: TOP + HEIGHT }
  const moments = readings.map(({ at_h }) => at_h)
  const clock = { top: plot.bottom + 8 }
  const hours = { top: clock.top + 26 }
  const x = { from: 0, to: 1.05 * Math.max(...moments, 0.5), start: plot.left, end: plot.right }
  return { width, wide, plot, ribbon: { top: plot.bottom, height: 0 }, clock, hours, height: hours.top + 24, x }
}

function Drawing({ readings, startsAt, units, scale, width }: DrawingProps): ReactNode {
  const frame = frameOf(readings, width)
  const { plot, x } = frame
  const y: LinearScale = { from: -scale.reach_K, to: scale.reach_K, start: plot.bottom, end: plot.top }
  const [low, high] = [toPixel(y, -scale.usual_K), toPixel(y, scale.usual_K)]
  const markers = probeMarkers(readings)
  return (
    <div className="course-drawing" style={{ height: frame.height }}>
      <svg className="chart-marks" width={width} height={plot.bottom + 2} aria-hidden="true">
        <rect x={plot.left} y={high} width={plot.right - plot.left} height={low - high} className="residual-usual" />
        {scale.ticks_K.map((tick_K) => (
          <g key={tick_K}>
            <path
              d={`M${plot.left} ${crisp(toPixel(y, tick_K))}H${plot.right}`}
              className={Math.abs(tick_K) < 1e-9 ? 'residual-zero' : 'residual-grid'}
            />
            <text x={plot.left - 8} y={toPixel(y, tick_K) + 4} textAnchor="end" className="axis-number">
              {signedDifference(tick_K, units).replace(/\.0$/, '')}
            </text>
          </g>
        ))}
        <path d={`M${plot.left} ${plot.top}V${plot.bottom + 0.5}H${plot.right}`} className="frame-line" />
        {readings.map(({ probe, at_h, residual_K, outlier, weight }) => (
          <g key={`${probe} ${at_h}`} transform={`translate(${toPixel(x, at_h)} ${toPixel(y, residual_K)})`}>
            <path
              d={markerPaths[markers.get(probe) ?? 'ring']}
              className={weight === 0 ? 'residual-mark residual-out' : 'residual-mark'}
            />
            {outlier ? <path d="M-8 -8L8 8M-8 8L8 -8" className="residual-cross" /> : null}
          </g>
        ))}
        {readings
          .filter(({ outlier }) => outlier)
          .slice(0, 3)
          .map(({ probe, at_h, residual_K }) => {
            const left = toPixel(x, at_h) > plot.right - 70
            return (
              <text
                key={`${probe} ${at_h}`}
                x={toPixel(x, at_h) + (left ? -12 : 12)}
                y={toPixel(y, residual_K) + 5}
                textAnchor={left ? 'end' : 'start'}
                className="chart-words danger-title"
              >
                strays
              </text>
            )
          })}
      </svg>
      <ClockAxis startsAt={startsAt} frame={frame} />
      {markers.size > 1 ? (
        <ul className="residual-probes" aria-label="Signs of the probes">
          {[...markers].map(([probe, marker]) => (
            <li key={probe}>
              <svg width="14" height="14" viewBox="-7 -7 14 14" aria-hidden="true">
                <path d={markerPaths[marker]} className="residual-mark" />
              </svg>
              {probe}
            </li>
          ))}
        </ul>
      ) : null}
    </div>
  )
}

function ResidualTable({ readings, startsAt, units }: ResidualPlotProps): ReactNode {
  const degree = `°${units.temperature}`
  return (
    <details className="material-numbers">
      <summary>As a table</summary>
      <section className="course-table" aria-label="Readings beside the computed course">
        <table>
          <thead>
            <tr>
              <th scope="col">Time</th>
              <th scope="col">Probe</th>
              <th scope="col" className="number">
                Read, {degree}
              </th>
              <th scope="col" className="number">
                Computed, {degree}
              </th>
              <th scope="col" className="number">
                Off by
              </th>
              <th scope="col">Remark</th>
            </tr>
          </thead>
          <tbody>
            {residualRows(readings, startsAt, units).map((row) => (
              <tr key={row.key}>
                <th scope="row">{row.when}</th>
                <td>{row.probe}</td>
                <td className="number">{row.read}</td>
                <td className="number">{row.expected}</td>
                <td className="number">{row.off}</td>
                <td>{row.remark}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </details>
  )
}
