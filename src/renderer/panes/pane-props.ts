import type { ReactNode } from 'react'

import type { Forecast } from '../../core/forecast-types.ts'
import type { Plan } from '../../core/plan/schema/plan.ts'
import type { Show } from '../../core/words/show.ts'
import type { Units } from '../units.ts'

/** What the panes that show a forecast are given. What is looked at (scrubber, chosen answer) they take from useView. */
export interface ForecastPaneProps {
  readonly forecast: Forecast
  /** The plan of which this forecast was made; not always the one being edited. */
  readonly plan: Plan
  /** Name of the change since which the forecast is out of date ("thickness"); null while it is fresh. */
  readonly stale: string | null
  /** Numbers and moments in the person's units, for `say(message, show)` and for text. */
  readonly show: Show
  readonly units: Units
  /** Stands at the end of the pane's heading row, such as “+ Question” beside Answers. */
  readonly beside?: ReactNode
}
