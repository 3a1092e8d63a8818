import { startTransition, useEffect, useState } from 'react'

/** The value one beat later: what costs much to draw follows what matters more, and never holds it up. */
export function useAfterwards<T>(value: T): T {
  const [late, setLate] = useState(value)
  useEffect(() => {
    const timer = setTimeout(() => startTransition(() => setLate(value)))
    return () => clearTimeout(timer)
  }, [value])
  return late
}
