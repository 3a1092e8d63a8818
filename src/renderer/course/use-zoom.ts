import { type RefObject, useEffect, useLayoutEffect, useState } from 'react'

import { useView } from '../view-store.ts'

/** Times that the course may be stretched. */
export const ZOOMS = [1, 2, 4, 8, 16] as const

export interface Zoom {
  readonly times: number
  readonly canRise: boolean
  readonly canFall: boolean
  readonly rise: () => void
  readonly fall: () => void
}

/**
 * How far the course is stretched within its own box. The scrubber's moment stays in sight, so that one zooms to what
 * one looks at; Ctrl and the wheel do the same as the buttons.
 */
export function useZoom(box: RefObject<HTMLElement | null>, from_h: number, to_h: number): Zoom {
  const [level, setLevel] = useState(0)
  const times = ZOOMS[level] ?? 1
  const step = (by: number): void => setLevel((now) => Math.min(ZOOMS.length - 1, Math.max(0, now + by)))

  useLayoutEffect(() => {
    const node = box.current
    if (node === null) return
    const share = (useView.getState().at_h - from_h) / Math.max(1e-9, to_h - from_h)
    node.scrollLeft = times === 1 ? 0 : share * node.scrollWidth - node.clientWidth / 2
  }, [box, times, from_h, to_h])

  useEffect(() => {
    const node = box.current
    if (node === null) return
    const wheel = (event: WheelEvent): void => {
      if (!event.ctrlKey) return
      event.preventDefault()
      setLevel((now) => Math.min(ZOOMS.length - 1, Math.max(0, now - Math.sign(event.deltaY))))
    }
    node.addEventListener('wheel', wheel, { passive: false })
    return () => node.removeEventListener('wheel', wheel)
  }, [box])

  return {
    times,
    canRise: level < ZOOMS.length - 1,
    canFall: level > 0,
    rise: () => step(1),
    fall: () => step(-1),
  }
}
