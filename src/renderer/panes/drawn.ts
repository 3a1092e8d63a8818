import { useEffect } from 'react'
import { create } from 'zustand'

import type { Forecast } from '../../core/forecast-types.ts'

/** The forecast that stands on the screen: drawing follows computing between whatever the person does. */
export const useDrawn = create<{ readonly forecast: Forecast | null }>()(() => ({ forecast: null }))

/** Says that a view has drawn this forecast. */
export function useTellDrawn(forecast: Forecast | null): void {
  useEffect(() => useDrawn.setState({ forecast }), [forecast])
}
