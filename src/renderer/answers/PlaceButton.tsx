import type { ReactNode } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import type { Place } from '../../core/geometry/body.ts'
import { layerTitle, placeWords } from '../../core/words/place.ts'
import { useView } from '../view-store.ts'

interface PlaceButtonProps {
  readonly forecast: Forecast
  /** As `view.answer` counts. */
  readonly index: number
  readonly place: Place
  readonly layer: string
  /** What the place is to the answer. */
  readonly heading?: string
}

/** Names the place that decides, and lights it in the section and in the film. */
export function PlaceButton({ forecast, index, place, layer, heading = 'Decides' }: PlaceButtonProps): ReactNode {
  const lit = useView(
    (view) =>
      view.answer === index && view.place?.x === place.x && view.place.y === place.y && view.place.z === place.z,
  )
  const light = useView((view) => view.light)
  return (
    <p className="answer-place">
      <span>
        {heading}: {layerTitle(forecast, layer)}, {placeWords(place)}
      </span>
      <button
        type="button"
        className="place-button"
        aria-pressed={lit}
        onClick={() => (lit ? light(null, null) : light(index, place))}
      >
        Show place
      </button>
    </p>
  )
}
