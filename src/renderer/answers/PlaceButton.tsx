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
}

/** Names the place that decides, and lights it in the section and in the film. */
export function PlaceButton({ forecast, index, place, layer }: PlaceButtonProps): ReactNode {
  const lit = useView((view) => view.answer === index)
  const light = useView((view) => view.light)
  return (
    <p className="answer-place">
      <span>
        Decides: {layerTitle(forecast, layer)}, {placeWords(place)}
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
