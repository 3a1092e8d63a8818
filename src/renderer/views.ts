import { lazy } from 'react'

/*
 * What is drawn of an open plan, and what is opened beside it, each loaded when it is first wanted: the shelf of examples
 * is there before the charts are. Once the page stands still, the rest is fetched ahead of its first use.
 */

const parts = {
  plan: () => import('./panes/PlanView.tsx'),
  day: () => import('./day/DayView.tsx'),
  sheet: () => import('./sheet/SheetView.tsx'),
  material: () => import('./material/MaterialPage.tsx'),
  help: () => import('./help/Help.tsx'),
} as const

export const PlanView = lazy(async () => ({ default: (await parts.plan()).PlanView }))
export const DayView = lazy(async () => ({ default: (await parts.day()).DayView }))
export const SheetView = lazy(async () => ({ default: (await parts.sheet()).SheetView }))
export const MaterialPage = lazy(async () => ({ default: (await parts.material()).MaterialPage }))
export const Help = lazy(async () => ({ default: (await parts.help()).Help }))

/** Fetches one part after the other while nothing else is to be done. */
export async function fetchAhead(idle: () => Promise<void>): Promise<void> {
  for (const part of Object.values(parts)) {
    await idle()
    await part()
  }
}
