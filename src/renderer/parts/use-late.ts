import { useEffect, useState } from 'react'

/** True once something has been so for a while; false at once when it ends. */
export function useLate(is: boolean, after_ms: number): boolean {
  const [late, setLate] = useState(false)
  useEffect(() => {
    if (!is) {
      setLate(false)
      return
    }
    const timer = setTimeout(() => setLate(true), after_ms)
    return () => clearTimeout(timer)
  }, [is, after_ms])
  return is && late
}
