import { type RefObject, useLayoutEffect, useRef, useState } from 'react'

/** The width of an element in px, kept up to date; `first` until it is known. */
export function useWidth<E extends HTMLElement>(first: number): readonly [RefObject<E | null>, number] {
  const element = useRef<E>(null)
  const [width, setWidth] = useState(first)
  useLayoutEffect(() => {
    const node = element.current
    if (node === null) return
    const observer = new ResizeObserver(() => setWidth(Math.floor(node.clientWidth)))
    observer.observe(node)
    setWidth(Math.floor(node.clientWidth))
    return () => observer.disconnect()
  }, [])
  return [element, width]
}
