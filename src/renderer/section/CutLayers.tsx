import type { ReactNode } from 'react'

import type { Plan } from '../../core/plan/schema/plan.ts'
import { materialLook } from '../catalog.ts'
import { lookFill } from '../parts/Patterns.tsx'
import { useView } from '../view-store.ts'
import type { Drawing, DrawnArea } from './drawing.ts'

interface CutLayersProps {
  readonly drawing: Drawing
  readonly plan: Plan
  readonly chosen: string | null
  /** A layer of the piece itself was pressed, px of the window. */
  readonly onPress: (at: { readonly x: number; readonly y: number }) => void
}

/** The cut layers with their materials; pressing one chooses it. Keys choose by the balloons. */
export function CutLayers({ drawing, plan, chosen, onPress }: CutLayersProps): ReactNode {
  const choose = useView(({ chooseLayer }) => chooseLayer)
  // What lies outside is seen anyway; drawn last it would hide what it goes round.
  const thin = (area: DrawnArea): number => (area.around ? 0 : Number(area.thicker) + 2 * Number(area.name === chosen))
  const order = drawing.areas.toSorted((a, b) => thin(a) - thin(b))
  return (
    <>
      {order.map((area) => (
        <path
          key={area.name}
          d={area.path}
          fillRule="evenodd"
          fill={lookFill(area.mould ? 'mould' : materialLook(plan, area.material))}
          className={`cut${area.name === chosen ? ' cut-chosen' : ''}${area.poured ? ' cut-poured' : ''}`}
          onPointerDown={() => choose(area.name)}
          // a finger that scrolls or drags ends in a cancel, not here
          onPointerUp={area.mould ? undefined : ({ clientX, clientY }) => onPress({ x: clientX, y: clientY })}
        />
      ))}
      {drawing.cuts.map((x) => (
        <path key={x} className="cut-line" d={`M${x} ${drawing.piece.top - 8}V${drawing.piece.bottom + 8}`} />
      ))}
      {drawing.breaks?.map((x) => (
        <path key={x} className="break-line" d={breakLine(x, drawing.piece.top - 10, drawing.piece.bottom + 10)} />
      ))}
    </>
  )
}

/** A zigzag where the piece goes on beyond the drawing. */
function breakLine(x: number, top: number, bottom: number): string {
  const middle = (top + bottom) / 2
  return `M${x} ${top}V${middle - 9}L${x - 7} ${middle - 3}L${x + 7} ${middle + 3}L${x} ${middle + 9}V${bottom}`
}
