import type { Forecast } from '../../core/forecast-types.ts'
import type { Plan } from '../../core/plan/schema.ts'

/** Lines that matter in the temperature field, °C: the danger zone's limits and what was asked of the core. */
export function linesThatMatter(forecast: Forecast, plan: Plan): readonly number[] {
  const asked = (plan.targets ?? []).map((target) => target.core_C)
  return [...new Set([forecast.danger.low_C, forecast.danger.high_C, ...asked])]
}

/** Title of a layer that the plan names. */
export function layerTitle(forecast: Forecast, layer: string): string {
  return forecast.film.flatMap((film) => film.layers).find((one) => one.name === layer)?.title ?? layer
}

const third = (share: number, low: string, high: string): string => (share < 1 / 3 ? low : share > 2 / 3 ? high : '')

/** Where a place lies in the section, in words: "in the middle", "low, in the middle", "near the top, left". */
export function placeWords(place: { readonly x: number; readonly y: number }): string {
  const up = place.y < 0.08 ? 'at the bottom' : place.y > 0.92 ? 'at the top' : third(place.y, 'low', 'high')
  const across =
    place.x < 0.08 ? 'at the left edge' : place.x > 0.92 ? 'at the right edge' : third(place.x, 'left', 'right')
  if (up === '' && across === '') return 'in the middle'
  if (across === '') return `${up}, in the middle`
  return up === '' ? across : `${up}, ${across}`
}
