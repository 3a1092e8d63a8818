import type { ReactNode } from 'react'

import { shownNumber, type Unit } from '../units.ts'
import type { Dimension } from './dimensions.ts'
import type { Drawing } from './drawing.ts'

/** Slim filled head, px. */
const HEAD = { length: 8, half: 2.7 }
/** Gap between the body and an extension line. */
const GAP = 4
const OVER = 4

/** Dimension lines with their heads and extension lines; their numbers are fields and lie above, sums are words. */
export function Dimensions({ drawing, unit }: { readonly drawing: Drawing; readonly unit: Unit }): ReactNode {
  return (
    <g className="dimensions">
      {drawing.dimensions.map((dimension) => (
        <DimensionLine key={dimension.name} dimension={dimension} unit={unit} />
      ))}
    </g>
  )
}

function DimensionLine({ dimension, unit }: { readonly dimension: Dimension; readonly unit: Unit }): ReactNode {
  const { from, to, reach, text, path, value } = dimension
  const level = from.y === to.y
  const long = Math.abs(level ? to.x - from.x : to.y - from.y)
  const inside = long > 2 * HEAD.length + 6
  const extensions = reach?.map((start) => {
    const end = level ? from.y : from.x
    const away = Math.sign(end - (level ? start.y : start.x))
    return level
      ? `M${start.x} ${start.y + away * GAP}V${end + away * OVER}`
      : `M${start.x + away * GAP} ${start.y}H${end + away * OVER}`
  })
  return (
    <>
      <path className="dimension" d={`M${from.x} ${from.y}L${to.x} ${to.y}${extensions?.join('') ?? ''}`} />
      <path className="dimension-head" d={`${head(from, level, inside ? 1 : -1)}${head(to, level, inside ? -1 : 1)}`} />
      {path === null ? (
        <text className="dimension-sum" x={text.x} y={text.y}>
          {shownNumber(value, unit)}
        </text>
      ) : null}
    </>
  )
}

function head({ x, y }: { readonly x: number; readonly y: number }, level: boolean, away: 1 | -1): string {
  const reach = HEAD.length * away
  return level
    ? `M${x} ${y}l${reach} ${-HEAD.half}v${2 * HEAD.half}z`
    : `M${x} ${y}l${-HEAD.half} ${reach}h${2 * HEAD.half}z`
}
