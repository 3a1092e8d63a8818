import { useMemo } from 'react'

import { useForecast } from '../forecast-client.ts'
import { staleSince } from '../forecast-word.ts'
import { showIn } from '../format.ts'
import { useLate } from '../parts/use-late.ts'
import { usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import type { ForecastPaneProps } from './pane-props.ts'

/** Results may be older than the plan for this long before they are marked, ms: a keystroke shall not make them blink. */
const MARK_MS = 400

/** The last good forecast with everything that its panes need; null before the first. */
export function useShown(): ForecastPaneProps | null {
  const { forecast, made } = useForecast()
  const units = useSettings(({ settings }) => settings)
  const state = usePlan()
  const since = staleSince(useForecast(), state)
  const marked = useLate(since !== null, MARK_MS)
  const startsAt = made?.startsAt
  const show = useMemo(() => (startsAt === undefined ? null : showIn(units, startsAt)), [units, startsAt])
  if (forecast === null || made === null || show === null) return null
  return { forecast, plan: made, stale: marked ? since : null, show, units }
}
