import type { KeyboardEvent, ReactNode } from 'react'

import type { Plan } from '../../core/plan/schema/plan.ts'
import { moveProbe, type Spot } from '../edits/probes.ts'
import { useDrag } from '../parts/use-drag.ts'
import { usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import { length, shownQuantity, shownUnit } from '../units.ts'
import { type Drawing, placeOnPaper } from './drawing.ts'

interface ProbeHandlesProps {
  readonly drawing: Drawing
  readonly probes: NonNullable<Plan['probes']>
}

/** Handles on the probes of the section: drag one, or arrow keys by 1 mm, with Shift by 10. */
export function ProbeHandles({ drawing, probes }: ProbeHandlesProps): ReactNode {
  return probes.map((probe, index) => (
    <ProbeHandle key={probe.name} drawing={drawing} name={probe.name} index={index} at={spotOf(probe)} />
  ))
}

const spotOf = ({ x = 0.5, y = 0.5 }: { readonly x?: number; readonly y?: number }): Spot => ({ x, y })

interface ProbeHandleProps {
  readonly drawing: Drawing
  readonly name: string
  readonly index: number
  readonly at: Spot
}

const arrows: Readonly<Record<string, Spot>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: 1 },
  ArrowDown: { x: 0, y: -1 },
}

function ProbeHandle({ drawing, name, index, at }: ProbeHandleProps): ReactNode {
  const units = useSettings(({ settings }) => settings)
  const { edit } = usePlan.getState()
  const { x, y } = placeOnPaper(drawing, at)
  const { width, height } = drawing.size
  const unit = shownUnit(length, units)
  const place = `${shownQuantity(at.x * width, unit)} from the left, ${shownQuantity(at.y * height, unit)} up`

  const put = (spot: Spot, key: string): void => edit('probe place', (plan) => moveProbe(plan, index, spot), key)

  const handlers = useDrag(
    () => ({ spot: at, piece: drawing.piece }),
    ({ spot, piece }, way, key) =>
      put({ x: spot.x + way.x / (piece.right - piece.left), y: spot.y - way.y / (piece.bottom - piece.top) }, key),
  )

  function press(event: KeyboardEvent): void {
    const way = arrows[event.key]
    if (way === undefined) return
    event.preventDefault()
    const step = event.shiftKey ? 10 : 1
    put({ x: at.x + (way.x * step) / width, y: at.y + (way.y * step) / height }, `probe keys ${index}`)
  }

  return (
    <button
      type="button"
      className="probe-handle"
      style={{ left: x, top: y }}
      aria-label={`Probe ${name} in the drawing: ${place}. Arrow keys move it.`}
      title={name}
      {...handlers}
      onKeyDown={press}
    />
  )
}
