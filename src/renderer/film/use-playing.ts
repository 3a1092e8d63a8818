import { useEffect, useState } from 'react'

import { useView } from '../view-store.ts'
import { nextMoment } from './film-frame.ts'

export interface Playing {
  readonly playing: boolean
  readonly toggle: () => void
}

/** Hours of the course in a second of the film. */
const hoursPerSecond = 6
const stepMillis = 700

const stillWanted = (): boolean => window.matchMedia('(prefers-reduced-motion: reduce)').matches

/** Runs the scrubber along the course; with reduced motion it steps from frame to frame instead of gliding. */
export function usePlaying(moments: readonly number[]): Playing {
  const [playing, play] = useState(false)
  const end_h = moments.at(-1) ?? 0
  useEffect(() => {
    if (!playing) return
    const { scrub } = useView.getState()
    const to = (at_h: number): void => {
      scrub(Math.min(end_h, at_h))
      if (at_h >= end_h) play(false)
    }
    if (stillWanted()) {
      const timer = setInterval(() => to(nextMoment(moments, useView.getState().at_h)), stepMillis)
      return () => clearInterval(timer)
    }
    let last = performance.now()
    let request = requestAnimationFrame(function glide(now: number) {
      // After a pause of the page the film goes on where it was.
      const seconds = Math.min(0.1, (now - last) / 1000)
      last = now
      to(useView.getState().at_h + seconds * hoursPerSecond)
      request = requestAnimationFrame(glide)
    })
    return () => cancelAnimationFrame(request)
  }, [playing, moments, end_h])
  const toggle = (): void => {
    if (!playing && useView.getState().at_h >= end_h - 1e-6) useView.getState().scrub(moments[0] ?? 0)
    play(!playing)
  }
  return { playing, toggle }
}
