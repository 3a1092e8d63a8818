import type { ReactNode } from 'react'

import { HatchPatterns, hatchFill } from './BandHatches.tsx'
import { cssColour } from './cividis.ts'
import type { StepScale } from './step-scale.ts'

interface ScaleBarProps {
  readonly scale: StepScale
  readonly labelOf: (value: number) => string
  readonly sign: string
  readonly height: number
  /** The picture's steps have hatches. */
  readonly hatched: boolean
  /** What is drawn in white, marked beside the bar. */
  readonly matter: readonly number[]
}

const top = 22
const barWidth = 15

/** The steps of the picture with the values between them. */
export function ScaleBar({ scale, labelOf, sign, height, matter, hatched }: ScaleBarProps): ReactNode {
  const steps = scale.colours.length
  const [low, high] = [scale.edges[0]!, scale.edges.at(-1)!]
  const bottom = height - 8
  const y = (value: number): number => bottom - ((value - low) / (high - low)) * (bottom - top)
  const every = (bottom - top) / steps < 17 ? 2 : 1
  return (
    <svg
      className="scale-bar"
      width="64"
      height={height}
      role="img"
      aria-label={`Scale from ${labelOf(low)} to ${labelOf(high)} ${sign} in ${steps} steps`}
    >
      <text x={barWidth / 2 + 1} y={13} textAnchor="middle" className="axis-number">
        {sign}
      </text>
      {scale.colours.map((colour, index) => (
        <rect
          key={scale.edges[index]}
          x={1}
          y={y(scale.edges[index + 1]!)}
          width={barWidth}
          height={y(scale.edges[index]!) - y(scale.edges[index + 1]!)}
          style={{ fill: cssColour(colour) }}
        />
      ))}
      {hatched && <HatchPatterns scale={scale} name="bar" />}
      {hatched &&
        scale.colours.map((_, index) => (
          <rect
            key={scale.edges[index]}
            x={1}
            y={y(scale.edges[index + 1]!)}
            width={barWidth}
            height={y(scale.edges[index]!) - y(scale.edges[index + 1]!)}
            fill={hatchFill('bar', index)}
            className="scale-hatch"
          />
        ))}
      <rect x={1} y={top} width={barWidth} height={bottom - top} className="scale-frame" />
      {scale.edges.map(
        (edge, index) =>
          (steps - index) % every === 0 && (
            <text key={edge} x={barWidth + 8} y={y(edge) + 4.5} className="axis-number">
              {labelOf(edge)}
            </text>
          ),
      )}
      {matter
        .filter((value) => value > low && value < high)
        .map((value) => (
          <path key={value} d={`M1 ${y(value)}h${barWidth}`} className="contour-heavy" />
        ))}
    </svg>
  )
}
