import type { ReactNode } from 'react'

import type { EvidenceRow } from '../../core/verification/evidence.ts'

const WIDTH = 160
const HEIGHT = 20
/** Ends of the scale, as a share of what was measured. */
const LOW = 0.4
const HIGH = 2.5

const at = (ratio: number): number =>
  (Math.log(Math.min(Math.max(ratio, LOW), HIGH) / LOW) / Math.log(HIGH / LOW)) * WIDTH

/**
 * What was computed over what was measured: the tint is what is allowed, the line in its middle the measured value, the
 * bar what was computed, hatched where it lies outside.
 */
export function RatioBar({ row, x = 0, y = 0 }: { row: EvidenceRow; x?: number; y?: number }): ReactNode {
  const { expected, computed, tolerance = 0, verdict } = row
  if (expected === undefined || computed === undefined) return null
  const middle = (expected[0] + expected[1]) / 2
  const [low, high] = [Math.min(...[computed].flat()), Math.max(...[computed].flat())]
  const [from, to] = [at((expected[0] - tolerance) / middle), at((expected[1] + tolerance) / middle)]
  const colour = verdict === 'ok' ? 'var(--ink, #2a1f18)' : 'var(--brick, #a2371c)'
  const width = Math.max(3, at(high / middle) - at(low / middle))
  return (
    <svg
      xmlns="http://www.w3.org/2000/svg"
      x={x}
      y={y}
      width={WIDTH}
      height={HEIGHT}
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      className="evidence-bar"
      aria-hidden="true"
    >
      <rect x={from} y="2" width={to - from} height="16" fill="var(--rule, #dacfbe)" />
      <line x1={at(1)} x2={at(1)} y1="0" y2={HEIGHT} stroke="var(--ink2, #5e4f43)" />
      <rect
        x={at(low / middle) - (width === 3 ? 1.5 : 0)}
        y="7"
        width={width}
        height="6"
        fill={verdict === 'ok' ? colour : 'var(--paper, #fbf8f2)'}
        stroke={colour}
        strokeWidth="1.5"
      />
    </svg>
  )
}
