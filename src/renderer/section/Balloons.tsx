import type { ReactNode } from 'react'

import type { Plan } from '../../core/plan/schema/plan.ts'
import { materialTitle } from '../catalog.ts'
import { useView } from '../view-store.ts'
import { BALLOON_RADIUS } from './balloons.ts'
import type { Drawing } from './drawing.ts'

interface BalloonsProps {
  readonly drawing: Drawing
  readonly plan: Plan
  readonly chosen: string | null
}

/** Numbers that tie the layers to the list; pressing one chooses its layer. */
export function Balloons({ drawing, plan, chosen }: BalloonsProps): ReactNode {
  const choose = useView(({ chooseLayer }) => chooseLayer)
  const material = new Map(drawing.areas.map((area) => [area.name, area.material]))
  return (
    <>
      <svg className="leaders" width={drawing.width} height={drawing.height} aria-hidden="true" focusable="false">
        {drawing.balloons.map(({ name, at, to }) => (
          <g key={name}>
            <path className="leader" d={`M${at.x + BALLOON_RADIUS} ${at.y}L${to.x} ${to.y}`} />
            <circle className="leader-end" cx={to.x} cy={to.y} r="2" />
          </g>
        ))}
      </svg>
      {drawing.balloons.map(({ name, number, at }) => (
        <button
          key={name}
          type="button"
          className="balloon-hit"
          style={{ left: at.x, top: at.y }}
          aria-pressed={name === chosen}
          aria-label={`Layer ${number}, ${materialTitle(plan, material.get(name) ?? '')}, in the drawing`}
          onClick={() => choose(name === chosen ? null : name)}
        >
          <span className="balloon">{number}</span>
        </button>
      ))}
    </>
  )
}
