import type { Forecast } from './forecast-types.ts'
import type { TimeBand } from './words/banded.ts'

/** Two moments nearer than this are one, h. */
const SAME_H = 1e-6

/** The band of a moment at which one stage ends and the next begins; none where it is given, or no such moment. */
export function boundaryBand(stages: Forecast['stages'], at_h: number): TimeBand {
  const ended = stages.find(({ to_h }) => Math.abs(to_h - at_h) < SAME_H)
  return ended === undefined ? {} : endBand(ended)
}

/** The band of how long a stage lasts. */
export const lengthBand = ({ lasts_early_h, lasts_late_h }: Forecast['stages'][number]): TimeBand => ({
  ...(lasts_early_h === undefined ? {} : { early_h: lasts_early_h }),
  ...(lasts_late_h === undefined ? {} : { late_h: lasts_late_h }),
})

/** The band of a stage's end. */
export const endBand = ({ to_early_h, to_late_h }: Forecast['stages'][number]): TimeBand => ({
  ...(to_early_h === undefined ? {} : { early_h: to_early_h }),
  ...(to_late_h === undefined ? {} : { late_h: to_late_h }),
})
