import type { ReactNode } from 'react'

import type { Drawing } from './drawing.ts'

/** The scale bar, and beside it the small view that shows how long the piece is. */
export function ScaleAndSide({ drawing }: { readonly drawing: Drawing }): ReactNode {
  const { bar, side } = drawing
  const half = bar.width / 2
  return (
    <>
      <g className="scale-bar" transform={`translate(${bar.at.x} ${bar.at.y})`}>
        <text x="0" y="-5">
          0
        </text>
        <text x={bar.width} y="-5" textAnchor="middle">
          {bar.words}
        </text>
        <path className="scale-dark" d={`M0 0H${half}V5H0Z`} />
        <path className="scale-light" d={`M${half} 0H${bar.width}V5H${half}Z`} />
      </g>
      {side === null ? null : (
        <g className="side-view">
          <path className="side-body" d={`M${side.left} ${side.top}h${side.width}v${side.height}h${-side.width}Z`} />
          {side.cuts.map((x) => (
            <path key={x} className="cut-line" d={`M${x} ${side.top - 3}v${side.height + 6}`} />
          ))}
          <path
            className="dimension"
            d={
              `M${side.left} ${side.text.y}h${side.width}` +
              `M${side.left} ${side.top + side.height + 4}V${side.text.y + 4}` +
              `M${side.left + side.width} ${side.top + side.height + 4}V${side.text.y + 4}`
            }
          />
        </g>
      )}
    </>
  )
}
