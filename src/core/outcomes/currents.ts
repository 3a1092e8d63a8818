import type { Course } from '../journey/course.ts'
import { type Message, message } from '../messages.ts'
import { GAIN } from '../solver/currents.ts'
import { toHours } from '../units.ts'

/** Currents that help less than this are not worth a word. */
const WORTH_SAYING = 1.05

/** What is to be said of masses that still pour: how much currents help at most, and for how long at some place. */
export function currentsIn(course: Course): Message[] {
  const found = new Map<string, { gain: number; until: number }>()
  for (const { mesh, first, states } of course.segments) {
    for (const [sample, gains] of (states[GAIN] ?? []).entries()) {
      for (let cell = 0; cell < gains.length; cell++) {
        const gain = gains[cell]!
        if (!(gain > WORTH_SAYING)) continue
        const { title } = mesh.layers[mesh.layerOf[cell]!]!.material
        const known = found.get(title) ?? { gain: 1, until: 0 }
        const t = course.t[Math.min(first + sample + 1, course.t.length - 1)]!
        found.set(title, { gain: Math.max(known.gain, gain), until: Math.max(known.until, t) })
      }
    }
  }
  return [...found].map(([title, { gain, until }]) =>
    message('mass-pours', { title, gain: Number(gain.toPrecision(2)), until_h: toHours(until) }),
  )
}
