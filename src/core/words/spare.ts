import type { TimeBand } from './banded.ts'
import type { Show } from './show.ts'

/**
 * "3 h to spare (1 h to 5 h)", "2 h too late (4 h too late to 1 h to spare)"; "at best" where the late end is not within
 * the plan.
 * @param band  what is to spare at the late end of the moment, then at its early one
 */
export function spareWords(margin_h: number, { early_h, late_h }: TimeBand, show: Pick<Show, 'duration'>): string {
  const size = (h: number): string => show.duration(Math.abs(h))
  const one = (h: number): string => `${size(h)} ${h < 0 ? 'too late' : 'to spare'}`
  const likely = one(margin_h)
  if (late_h === undefined) return likely
  if (early_h === undefined) return `${likely} (${one(late_h)} at best)`
  const [least, most] = [early_h, late_h].sort((a, b) => Math.abs(a) - Math.abs(b))
  const oneSide = early_h < 0 === late_h < 0 && early_h < 0 === margin_h < 0
  const band = oneSide ? `${size(least!)} to ${size(most!)}` : `${one(early_h)} to ${one(late_h)}`
  return oneSide && size(early_h) === size(margin_h) && size(late_h) === size(margin_h) ? likely : `${likely} (${band})`
}
