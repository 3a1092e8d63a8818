import { useDeferredValue, useMemo } from 'react'

import { withSampledBands } from '../../core/deciding/sampled-bands.ts'
import { useSampled } from '../choosing/sampled-store.ts'
import { useForecast } from '../forecast-client.ts'
import { staleSince } from '../forecast-word.ts'
import { showIn } from '../format.ts'
import { useLate } from '../parts/use-late.ts'
import { usePlan } from '../plan-store.ts'
import { useSettings } from '../settings.ts'
import { useTellDrawn } from './drawn.ts'
import type { ForecastPaneProps } from './pane-props.ts'

/** Results may be older than the plan for this long before they are marked, ms: a keystroke shall not make them blink. */
const MARK_MS = 400

/**
 * The last good forecast with everything that its panes need; null before the first. It is drawn between whatever the
 * person does, in slices, so that typing never waits for curves.
 */
export function useShown(): ForecastPaneProps | null {
  const { forecast, made } = useForecast()
  const units = useSettings(({ settings }) => settings)
  const state = usePlan()
  const since = staleSince(useForecast(), state)
  const marked = useLate(since !== null, MARK_MS)
  const stale = marked ? since : null
  const startsAt = made?.startsAt
  const show = useMemo(() => (startsAt === undefined ? null : showIn(units, startsAt)), [units, startsAt])
  const sampled = useSampled()
  const banded = useMemo(
    () =>
      forecast === null || sampled.spread === null || sampled.of !== made
        ? forecast
        : withSampledBands(forecast, sampled.spread),
    [forecast, made, sampled],
  )
  const shown = useMemo(
    () =>
      banded === null || made === null || show === null
        ? null
        : { forecast, props: { forecast: banded, plan: made, stale, show, units } },
    [forecast, banded, made, stale, show, units],
  )
  const drawn = useDeferredValue(shown)
  useTellDrawn(drawn?.forecast ?? null)
  return drawn?.props ?? null
}
