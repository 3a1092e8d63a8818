import type { Answer } from '../../core/forecast-types.ts'
import { days, hourStep, hourTicks, midnights } from '../course/clock-axis.ts'
import { clockTime, shortWeekday, wallMoment } from '../format-time.ts'

/** The stretch of time of an answer's small track, hours since the start. */
export interface TrackScale {
  readonly from_h: number
  readonly to_h: number
  readonly ticks: readonly { readonly at_h: number; readonly word?: string }[]
  /** Words between the ticks, such as day names. */
  readonly between: readonly { readonly at_h: number; readonly word: string }[]
}

const longTrack_h = 36

/** Early, likely, late and asked with room to both sides; ticks at midnights, or at round hours on a short track. */
export function trackScale(answer: Answer, startsAt: string, width: number): TrackScale | undefined {
  const moments = [answer.at_h, answer.early_h, answer.late_h, answer.by_h].filter((at_h) => at_h !== undefined)
  if (moments.length < 2) return undefined
  const [least, most] = [Math.min(...moments), Math.max(...moments)]
  const room = Math.max(1, (most - least) * 0.18)
  const [from_h, to_h] = [Math.max(0, least - room), most + room]
  if (to_h - from_h < longTrack_h) {
    const step = Math.max(1, hourStep(from_h, to_h, width, 58))
    const midnight = midnights(startsAt, from_h - 24, from_h + 1e-9).at(-1) ?? 0
    const ticks = hourTicks(from_h - midnight, to_h - midnight, step).map((tick) => tick + midnight)
    return {
      from_h,
      to_h,
      ticks: ticks.map((at_h) => ({ at_h, word: tickWord(startsAt, at_h) })),
      between: [],
    }
  }
  const between = days(startsAt, from_h, to_h).flatMap((day) => {
    const wide = ((day.to_h - day.from_h) / (to_h - from_h)) * width > 34
    const middle = (day.from_h + day.to_h) / 2
    return wide ? [{ at_h: middle, word: shortWeekday(wallMoment(startsAt, middle)) }] : []
  })
  return { from_h, to_h, ticks: midnights(startsAt, from_h, to_h).map((at_h) => ({ at_h })), between }
}

function tickWord(startsAt: string, at_h: number): string {
  const clock = clockTime(startsAt, at_h)
  return clock === '00:00' ? shortWeekday(wallMoment(startsAt, at_h + 0.01)) : clock
}
