import type { ReactNode } from 'react'

import { cssColour, inkOn, type Rgb } from './cividis.ts'
import { placeContourLabels, type ScreenLines } from './contour-labels.ts'
import type { Point } from './section-shape.ts'
import { colourOf, type StepScale } from './step-scale.ts'

interface ContourLabelsProps {
  readonly scale: StepScale
  readonly labelOf: (value: number) => string
  /** In the order of what matters. */
  readonly contours: readonly ScreenLines[]
  readonly sign: Point | undefined
  readonly frame: { readonly width: number; readonly height: number }
}

const signLift = 20

/** Values on their lines, in black or white with a halo of the step's own colour. */
export function ContourLabels({ scale, labelOf, contours, sign, frame }: ContourLabelsProps): ReactNode {
  const clear = sign
    ? [sign, ...[-60, -30, 0, 30, 60].map((shift) => ({ x: sign.x + shift, y: sign.y - signLift }))]
    : []
  return placeContourLabels(contours, clear, frame).map((label) => {
    const ground = colourOf(scale, label.value)
    return (
      <text
        key={label.value}
        x={label.x}
        y={label.y + 4.5}
        textAnchor="middle"
        className="contour-label"
        style={{ fill: inkOn(ground), stroke: cssColour(ground) }}
      >
        {labelOf(label.value)}
      </text>
    )
  })
}

interface PlaceSignProps {
  readonly at: Point
  readonly words: string
  readonly ground: Rgb
  readonly width: number
}

/** Ring with a cross, and its value above it or, near the top, below. */
export function PlaceSign({ at, words, ground, width }: PlaceSignProps): ReactNode {
  const half = words.length * 4
  const x = Math.min(width - half - 2, Math.max(half + 2, at.x))
  const y = at.y < 36 ? at.y + 26 : at.y - 15
  const colours = { fill: inkOn(ground), stroke: cssColour(ground) }
  const ring = `M${at.x - 7} ${at.y}a7 7 0 1 0 14 0a7 7 0 1 0 -14 0M${at.x - 11} ${at.y}h22M${at.x} ${at.y - 11}v22`
  return (
    <>
      <path d={ring} className="place-sign-casing" style={{ stroke: colours.stroke }} />
      <path d={ring} className="place-sign" style={{ stroke: colours.fill }} />
      <text x={x} y={y} textAnchor="middle" className="contour-label" style={colours}>
        {words}
      </text>
    </>
  )
}

/** Where an answer points. */
export function LitPlace({ at }: { readonly at: Point }): ReactNode {
  return (
    <>
      <circle cx={at.x} cy={at.y} r={15} className="lit-place-casing" />
      <circle cx={at.x} cy={at.y} r={15} className="lit-place" />
    </>
  )
}
