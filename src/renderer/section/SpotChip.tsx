import { type ReactNode, useEffect, useRef } from 'react'

import { addProbe, type Spot } from '../edits/probes.ts'
import { usePlan } from '../plan-store.ts'
import { type Drawing, placeOnPaper } from './drawing.ts'

interface SpotChipProps {
  readonly drawing: Drawing
  readonly spot: Spot
  readonly onDone: () => void
}

/** Offers a probe where the section was pressed; it goes with Esc and with a press elsewhere. */
export function SpotChip({ drawing, spot, onDone }: SpotChipProps): ReactNode {
  const chip = useRef<HTMLButtonElement>(null)
  const edit = usePlan((state) => state.edit)
  const at = placeOnPaper(drawing, spot)
  useEffect(() => {
    const away = (event: PointerEvent): void => {
      if (event.target instanceof Node && !chip.current?.contains(event.target)) onDone()
    }
    const dismiss = (event: KeyboardEvent): void => {
      if (event.key === 'Escape') onDone()
    }
    document.addEventListener('pointerdown', away, true)
    document.addEventListener('keydown', dismiss)
    return () => {
      document.removeEventListener('pointerdown', away, true)
      document.removeEventListener('keydown', dismiss)
    }
  }, [onDone])
  const left = Math.min(Math.max(at.x, 50), drawing.width - 54)
  return (
    <>
      <svg className="spot-sign" style={{ left: at.x - 9, top: at.y - 9 }} width="18" height="18" aria-hidden="true">
        <path d="M9 1V17M1 9H17" />
      </svg>
      <button
        ref={chip}
        type="button"
        className="spot-chip"
        style={{ left, top: at.y - 34 }}
        onClick={() => {
          edit('new probe', (plan) => addProbe(plan, spot))
          onDone()
        }}
      >
        Probe here
      </button>
    </>
  )
}
