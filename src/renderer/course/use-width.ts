import { type RefObject, useLayoutEffect, useRef, useState } from 'react'

/** Width of an element in whole pixels, kept up to date; 0 before it is laid out. */
export function useWidth<E extends HTMLElement>(): readonly [RefObject<E | null>, number] {
  const element = useRef<E>(null)
  const [width, setWidth] = useState(0)
  useLayoutEffect(() => {
    const watched = element.current
    if (!watched) return
    const measure = (): void => setWidth(Math.floor(watched.clientWidth))
    measure()
    const observer = new ResizeObserver(measure)
    observer.observe(watched)
    return () => observer.disconnect()
  }, [])
  return [element, width]
}
