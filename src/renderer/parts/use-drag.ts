import { type PointerEvent, useRef } from 'react'

import { usePlan } from '../plan-store.ts'

/** Way of the pointer since a drag began, px of the window. */
export interface Way {
  readonly x: number
  readonly y: number
}

interface Drag<From> extends Way {
  readonly from: From
  readonly key: string
}

let drags = 0

/**
 * Handlers of a handle that is dragged: all moves of a drag are one step of undo.
 * @param begin  what the drag starts from, kept while it lasts
 * @param move  given that, the way since, and the key that joins the edits of a drag
 */
export function useDrag<From>(begin: () => From, move: (from: From, way: Way, key: string) => void, end?: () => void) {
  const drag = useRef<Drag<From> | null>(null)
  const { seal } = usePlan.getState()

  function onPointerDown(event: PointerEvent<HTMLElement>): void {
    event.currentTarget.setPointerCapture(event.pointerId)
    drags += 1
    drag.current = { x: event.clientX, y: event.clientY, from: begin(), key: `drag ${drags}` }
  }

  function onPointerMove(event: PointerEvent<HTMLElement>): void {
    if (drag.current === null) return
    const { x, y, from, key } = drag.current
    move(from, { x: event.clientX - x, y: event.clientY - y }, key)
  }

  function stop(): void {
    if (drag.current === null) return
    drag.current = null
    end?.()
    seal()
  }

  return {
    onPointerDown,
    onPointerMove,
    onPointerUp: stop,
    onPointerCancel: stop,
    onLostPointerCapture: stop,
    onBlur: seal,
  }
}
