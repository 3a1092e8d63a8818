import type { Forecast } from '../../core/forecast-types.ts'

/**
 * Moments of the film strip: the start and the end, where stages begin, where answers are likely, then the middles of
 * the widest gaps, as many as stand `apart` hours from each other.
 */
export function stripMoments(forecast: Forecast, apart_h: number): readonly number[] {
  const [from_h, to_h] = [forecast.times_h[0] ?? 0, forecast.times_h.at(-1) ?? 0]
  const wanted = [
    from_h,
    to_h,
    ...forecast.answers.flatMap((answer) => (answer.at_h === undefined ? [] : [answer.at_h])),
    ...forecast.stages.map((stage) => stage.from_h),
  ]
  const kept: number[] = []
  for (const at_h of wanted) {
    if (at_h < from_h || at_h > to_h) continue
    if (kept.every((other) => Math.abs(other - at_h) >= apart_h - 1e-9)) kept.push(at_h)
  }
  kept.sort((a, b) => a - b)
  for (;;) {
    let widest = 0
    for (let index = 1; index < kept.length; index++) if (gap(kept, index) > gap(kept, widest)) widest = index
    if (widest === 0 || gap(kept, widest) < 2 * apart_h) return kept
    kept.splice(widest, 0, (kept[widest - 1]! + kept[widest]!) / 2)
  }
}

const gap = (moments: readonly number[], index: number): number =>
  index === 0 ? 0 : moments[index]! - moments[index - 1]!
