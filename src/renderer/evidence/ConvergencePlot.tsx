import type { ReactNode } from 'react'

import type { Convergence } from '../../core/verification/evidence.ts'
import { digits } from './figure-words.ts'

const WIDTH = 300
const HEIGHT = 216
const LEFT = 56
const RIGHT = 286
const TOP = 34
const BOTTOM = 172

/** Powers of ten that a span of values lies between. */
function decades(values: readonly number[]): readonly [number, number] {
  return [Math.floor(Math.log10(Math.min(...values))), Math.ceil(Math.log10(Math.max(...values)))]
}

const powers = (low: number, high: number): number[] => Array.from({ length: high - low + 1 }, (_, i) => low + i)

/** Error against cells of one case, both by powers, with the slope of second order beside it. */
export function ConvergencePlot({ study }: { readonly study: Convergence }): ReactNode {
  const { points, order, title } = study
  const cells = points.map((point) => point.cells)
  const [low, high] = decades(points.map((point) => point.error_K))
  const [few, most] = [Math.log2(Math.min(...cells)), Math.log2(Math.max(...cells))]
  const x = (count: number): number => LEFT + 12 + ((Math.log2(count) - few) / (most - few)) * (RIGHT - LEFT - 24)
  const y = (error: number): number => BOTTOM - ((Math.log10(error) - low) / (high - low)) * (BOTTOM - TOP)
  const last = points.at(-1)
  // Through the finest point, twice as many cells a quarter of the error.
  const second = (count: number): number => (last === undefined ? 1 : last.error_K * (last.cells / count) ** 2)
  const told = points.map((point) => `${point.cells} cells ${digits(point.error_K, 2)} K`).join(', ')
  return (
    <svg
      xmlns="http://www.w3.org/2000/svg"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      className="evidence-plot"
      role="img"
      aria-label={`${title}: error against the exact solution, ${told}; order ${order.toFixed(2)}`}
      fontFamily="'Atkinson Hyperlegible Next Variable', system-ui, sans-serif"
      fontSize="13"
    >
      <rect width={WIDTH} height={HEIGHT} fill="var(--paper, #fbf8f2)" />
      <text x="4" y="18" fontWeight="650" fill="var(--ink, #2a1f18)">
        {title}
      </text>
      {powers(low, high).map((power) => (
        <g key={power}>
          <line x1={LEFT} x2={RIGHT} y1={y(10 ** power)} y2={y(10 ** power)} stroke="var(--rule, #dacfbe)" />
          <text x={LEFT - 6} y={y(10 ** power) + 4} textAnchor="end" fill="var(--ink2, #5e4f43)">
            {power < 0 ? (10 ** power).toFixed(-power) : 10 ** power}
          </text>
        </g>
      ))}
      {cells.map((count) => (
        <text key={count} x={x(count)} y={BOTTOM + 18} textAnchor="middle" fill="var(--ink2, #5e4f43)">
          {count}
        </text>
      ))}
      <text x={RIGHT} y={BOTTOM + 36} textAnchor="end" fill="var(--ink2, #5e4f43)">
        cells from middle to face
      </text>
      <text x="4" y={BOTTOM + 36} fill="var(--ink2, #5e4f43)">
        error, K
      </text>
      <path
        d={cells
          .filter((count) => second(count) <= 10 ** high)
          .map((count, index) => `${index === 0 ? 'M' : 'L'}${x(count)},${y(second(count))}`)
          .join('')}
        fill="none"
        stroke="var(--ink2, #5e4f43)"
        strokeDasharray="3 4"
      />
      <path
        d={points.map((point, index) => `${index === 0 ? 'M' : 'L'}${x(point.cells)},${y(point.error_K)}`).join('')}
        fill="none"
        stroke="var(--ink, #2a1f18)"
        strokeWidth="2.2"
      />
      {points.map((point) => (
        <circle
          key={point.cells}
          cx={x(point.cells)}
          cy={y(point.error_K)}
          r="4"
          fill="var(--paper, #fbf8f2)"
          stroke="var(--ink, #2a1f18)"
          strokeWidth="2"
        />
      ))}
      <text x={RIGHT} y={TOP + 14} textAnchor="end" fontWeight="650" fill="var(--ink, #2a1f18)">
        {`order ${order.toFixed(2)}`}
      </text>
    </svg>
  )
}
