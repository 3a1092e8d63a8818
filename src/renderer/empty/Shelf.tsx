import type { ReactNode } from 'react'

import type { Plan } from '../../core/plan/schema/plan.ts'
import { materialLook } from '../catalog.ts'
import { lookFill } from '../parts/Patterns.tsx'
import { useWidth } from '../parts/use-width.ts'
import { openExample } from '../plan-files.ts'
import { cutPiece } from '../section/areas.ts'
import type { CutPiece } from '../section/cut-piece.ts'
import { outlinePath, type Paper } from '../section/outline.ts'
import { scaleBar } from '../section/scale-bar.ts'
import { useSettings } from '../settings.ts'
import { questionWord } from '../text.ts'
import { length, shownQuantity, shownUnit } from '../units.ts'

export interface ShelfPiece {
  readonly id: string
  readonly title: string
  readonly plan: Plan
}

/** Room around a piece, px. */
const EDGE = 4
/** Least width of a piece's part of the shelf, px. */
const COLUMN = 260

/** Examples on a shelf, cut in half and drawn to one scale. */
export function Shelf({ pieces }: { readonly pieces: readonly ShelfPiece[] }): ReactNode {
  const [frame, width] = useWidth<HTMLDivElement>(900)
  const units = useSettings(({ settings }) => settings)
  const cuts = pieces.map((piece) => ({ piece, cut: cutPiece(piece.plan) }))
  const scale = shelfScale(
    cuts.map(({ cut }) => cut),
    width,
  )
  const bar = scaleBar(scale, units.length, { x: 0, y: 0 })
  return (
    <div className="shelf" ref={frame}>
      {pieces.length === 0 ? null : (
        <div className="shelf-about">
          <p>All cut in half and drawn to one scale. Press one to open a copy.</p>
          <svg className="scale-bar" width={bar.width + 8} height="26" role="img" aria-label={`Scale: ${bar.words}`}>
            <path className="scale-dark" d={`M1 2h${bar.width / 2}v5h${-bar.width / 2}z`} />
            <path className="scale-light" d={`M${1 + bar.width / 2} 2h${bar.width / 2}v5h${-bar.width / 2}z`} />
            <text x={bar.width + 1} y="22" textAnchor="end">
              {bar.words}
            </text>
          </svg>
        </div>
      )}
      <ul className="shelf-row">
        {cuts.map(({ piece, cut }) => (
          <li key={piece.id}>
            <button type="button" className="shelf-piece" onClick={() => void openExample(piece.id)}>
              <ShelfDrawing plan={piece.plan} cut={cut} scale={scale} />
              <span className="shelf-words">
                <b>{piece.title}</b>
                <span className="second">
                  {shelfQuestion(piece.plan)} {shownQuantity(cut.height, shownUnit(length, units))} high
                </span>
              </span>
            </button>
          </li>
        ))}
      </ul>
    </div>
  )
}

/** One scale at which the widest piece has its part of the shelf and the tallest fits. */
function shelfScale(cuts: readonly CutPiece[], width: number): number {
  const widest = Math.max(1, ...cuts.map(({ bounds }) => bounds.right - bounds.left))
  const tallest = Math.max(1, ...cuts.map(({ bounds }) => bounds.top - bounds.bottom))
  const columns = Math.max(1, Math.min(cuts.length, Math.floor(width / COLUMN)))
  return Math.min((width / columns - 64) / widest, 230 / tallest, 1.5)
}

function shelfQuestion({ targets = [] }: Plan): string {
  const [first] = targets
  return first === undefined ? 'How does it go?' : `When is it ${questionWord(first.kind).toLowerCase()}?`
}

interface ShelfDrawingProps {
  readonly plan: Plan
  readonly cut: CutPiece
  readonly scale: number
}

function ShelfDrawing({ plan, cut, scale }: ShelfDrawingProps): ReactNode {
  const { bounds } = cut
  const width = (bounds.right - bounds.left) * scale
  const height = (bounds.top - bounds.bottom) * scale
  const paper: Paper = { scale, left: EDGE - bounds.left * scale, base: EDGE + bounds.top * scale }
  return (
    <svg width={width + 2 * EDGE} height={height + EDGE + 1} aria-hidden="true" focusable="false">
      {cut.areas.map((area) => (
        <path
          key={area.row.name}
          className="cut"
          fillRule="evenodd"
          d={outlinePath(area.figure, paper)}
          fill={lookFill(area.row.list === 'mould' ? 'mould' : materialLook(plan, area.row.material))}
        />
      ))}
    </svg>
  )
}
