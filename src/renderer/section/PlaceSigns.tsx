import type { ReactNode } from 'react'

import type { Place } from '../../core/geometry/body.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import { type Drawing, placeOnPaper } from './drawing.ts'
import type { Point } from './outline.ts'

interface PlaceSignsProps {
  readonly drawing: Drawing
  readonly core: Place | null
  readonly lit: Place | null
  readonly probes: NonNullable<Plan['probes']>
}

/** Where the core was found, where the probes are, and the place that an answer speaks of. */
export function PlaceSigns({ drawing, core, lit, probes }: PlaceSignsProps): ReactNode {
  const coreAt = core === null ? null : placeOnPaper(drawing, core)
  return (
    <g className="place-signs">
      {probes.map(({ name, x = 0.5, y = 0.5 }, i) => {
        const at = placeOnPaper(drawing, { x, y })
        const left = coreAt !== null && runsInto(at, name, coreAt)
        return (
          <g key={name} transform={`translate(${at.x} ${at.y})`}>
            <path className="probe-sign" d={probeSign(i)} />
            <text className="place-word" x={left ? -12 : 12} y="5" textAnchor={left ? 'end' : 'start'}>
              {name}
            </text>
          </g>
        )
      })}
      {core === null ? null : <CoreSign drawing={drawing} core={core} />}
      {lit === null ? null : <LitPlace drawing={drawing} lit={lit} />}
    </g>
  )
}

/** Whether a name to the right of its sign would run into the core's sign or words. */
function runsInto(at: Point, name: string, core: Point): boolean {
  const from = at.x + 12
  const to = from + 8 * name.length
  return Math.abs(at.y - core.y) < 20 && from < core.x + 110 && to > core.x - 12
}

function CoreSign({ drawing, core }: { readonly drawing: Drawing; readonly core: Place }): ReactNode {
  const { x, y } = placeOnPaper(drawing, core)
  const right = x + 100 < drawing.piece.right + 8
  return (
    <g transform={`translate(${x} ${y})`}>
      <path className="core-sign" d="M-7 0a7 7 0 1 0 14 0a7 7 0 1 0-14 0M-11 0H11M0-11V11" />
      <text className="place-word" x={right ? 16 : 0} y={right ? 5 : 28} textAnchor={right ? 'start' : 'middle'}>
        core, found
      </text>
    </g>
  )
}

function LitPlace({ drawing, lit }: { readonly drawing: Drawing; readonly lit: Place }): ReactNode {
  const { x, y } = placeOnPaper(drawing, lit)
  return <circle className="lit-place" cx={x} cy={y} r="15" />
}

/** Ring, square, triangle, lozenge; they cycle. */
export function probeSign(index: number): string {
  const signs = [
    'M-5 0a5 5 0 1 0 10 0a5 5 0 1 0-10 0Z',
    'M-4.5-4.5H4.5V4.5H-4.5Z',
    'M0-5.5 5.5 4.5H-5.5Z',
    'M0-6 6 0 0 6-6 0Z',
  ]
  return signs[index % signs.length] ?? ''
}
