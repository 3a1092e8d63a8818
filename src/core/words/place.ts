import type { Forecast } from '../forecast-types.ts'

/** Title of a layer that the plan names, e.g. of `fill[0]`. */
export function layerTitle(forecast: Pick<Forecast, 'film' | 'quantities'>, layer: string): string {
  const left = forecast.quantities.layers.find((one) => one.name === layer)
  // The film knows what was cut off too, but is worth drawing only for that.
  return (left ?? forecast.film.flatMap((film) => film.layers).find((one) => one.name === layer))?.title ?? layer
}

const third = (share: number, low: string, high: string): string => (share < 1 / 3 ? low : share > 2 / 3 ? high : '')

/** Where a place lies in the section, in words: "in the middle", "low, in the middle", "at the top, left". */
export function placeWords(place: { readonly x: number; readonly y: number }): string {
  const up = place.y < 0.08 ? 'at the bottom' : place.y > 0.92 ? 'at the top' : third(place.y, 'low', 'high')
  const across =
    place.x < 0.08 ? 'at the left edge' : place.x > 0.92 ? 'at the right edge' : third(place.x, 'left', 'right')
  if (up === '' && across === '') return 'in the middle'
  if (across === '') return `${up}, in the middle`
  return up === '' ? across : `${up}, ${across}`
}
